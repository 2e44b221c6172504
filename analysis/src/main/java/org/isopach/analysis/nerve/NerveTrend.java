package org.isopach.analysis.nerve;

import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.series.AgeSlope;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.LinearTrend;
import org.isopach.analysis.stat.TheilSen;

/**
 * How one mean runs over the visits, in µm per year, or why there is no slope. About structure
 * only.
 *
 * @param place the place, for example {@code global}
 * @param visits number of visits with a value
 * @param spanYears years from the first to the last of them
 * @param line least squares with its 95 % interval; empty when refused
 * @param robust median of the slopes of all pairs of visits; empty when refused
 * @param ageing what healthy eyes lose in a year, or why that is not known
 * @param power what the visits can show; empty when refused or the scatter is 0
 * @param refusal why there is no slope
 * @param pAdjusted probability of a slope at least as steep without any, after Benjamini and
 *     Hochberg over the places judged together; empty when there is none
 */
public record NerveTrend(
    String place,
    int visits,
    double spanYears,
    Optional<LinearTrend> line,
    Optional<TheilSen> robust,
    AgeSlope ageing,
    Optional<TrendPower> power,
    Optional<String> refusal,
    OptionalDouble pAdjusted) {
  /** Two visits have a difference; how far it is from noise, a third one must tell. */
  public static final int LEAST_VISITS = 3;

  public NerveTrend {
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(line, "line");
    Objects.requireNonNull(robust, "robust");
    Objects.requireNonNull(ageing, "ageing");
    Objects.requireNonNull(power, "power");
    Objects.requireNonNull(refusal, "refusal");
    Objects.requireNonNull(pAdjusted, "pAdjusted");
  }

  /** Returns the slope less what age explains, in µm per year; empty where either is not known. */
  public OptionalDouble slopeLessAgeing() {
    return line.isPresent() && ageing.umPerYear().isPresent()
        ? OptionalDouble.of(line.get().slope() - ageing.umPerYear().getAsDouble())
        : OptionalDouble.empty();
  }

  /**
   * Returns the interval of {@link #slopeLessAgeing}: that of the slope, moved. The expected
   * slope's own error is not in it.
   */
  public Optional<ConfidenceInterval> intervalLessAgeing() {
    if (slopeLessAgeing().isEmpty()) {
      return Optional.empty();
    }
    ConfidenceInterval raw = line.orElseThrow().slopeInterval();
    double expected = ageing.umPerYear().getAsDouble();
    return Optional.of(
        new ConfidenceInterval(raw.lower() - expected, raw.upper() - expected, raw.level()));
  }

  /** Returns what the slope says, the number of places asked together allowed for. */
  public EventVerdict verdict() {
    if (pAdjusted.isEmpty()) {
      return EventVerdict.UNKNOWN;
    }
    if (pAdjusted.getAsDouble() > NerveEvent.Judged.LEVEL) {
      return EventVerdict.WITHIN;
    }
    return line.orElseThrow().slope() < 0 ? EventVerdict.THINNER : EventVerdict.THICKER;
  }

  /** Returns this trend judged together with others. */
  NerveTrend adjusted(double p) {
    return new NerveTrend(
        place, visits, spanYears, line, robust, ageing, power, refusal, OptionalDouble.of(p));
  }

  /** Returns one sentence without a full stop. */
  public String words() {
    if (line.isEmpty()) {
      return "no slope: " + refusal.orElse("");
    }
    LinearTrend found = line.get();
    String raw = sentence(found.slope(), found.slopeInterval(), verdict());
    String beside =
        slopeLessAgeing().isEmpty()
            ? "; what age explains is not known: " + ageing.refusal()
            : "; less what age explains: "
                + figures(slopeLessAgeing().getAsDouble(), intervalLessAgeing().orElseThrow());
    boolean silent = found.slopeInterval().contains(0);
    String able = silent && power.isPresent() ? "; " + power.get().words() : "";
    return raw + beside + able;
  }

  private static String sentence(double slope, ConfidenceInterval interval, EventVerdict verdict) {
    if (interval.contains(0)) {
      return "no slope beyond the visits' scatter (" + figures(slope, interval) + ")";
    }
    if (verdict == EventVerdict.WITHIN) {
      return "beyond the visits' scatter taken by itself, not once the number of places is allowed"
          + " for ("
          + figures(slope, interval)
          + ")";
    }
    return (slope < 0 ? "thins" : "thickens") + " (" + figures(slope, interval) + ")";
  }

  private static String figures(double slope, ConfidenceInterval interval) {
    return String.format(
        Locale.ROOT,
        "%+.2f µm per year, 95 %% CI %+.2f to %+.2f",
        slope,
        interval.lower(),
        interval.upper());
  }
}
