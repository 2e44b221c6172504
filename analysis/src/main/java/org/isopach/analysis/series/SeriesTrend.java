package org.isopach.analysis.series;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.stat.LinearTrend;
import org.isopach.analysis.stat.TheilSen;

/**
 * How a series runs: slopes in µm per year of 365.25 days, or why there are none.
 *
 * <p>Slopes are those of the changes from the first visit, each over the part that both visits
 * cover, so that unequal coverage is not taken for a slope. The first visit counts with 0.
 *
 * @param visits number of visits with a number
 * @param spanDays days from the first to the last of them
 * @param differenceUm last less first of them in µm; empty when there are fewer than two
 * @param line least squares with its interval; empty when refused
 * @param robust median of the slopes of all pairs of visits; empty when refused
 * @param refusal why there is no slope
 */
public record SeriesTrend(
    int visits,
    long spanDays,
    OptionalDouble differenceUm,
    Optional<LinearTrend> line,
    Optional<TheilSen> robust,
    Optional<String> refusal) {
  /** Days of a mean year. */
  public static final double DAYS_PER_YEAR = 365.25;

  /** Level of the intervals. */
  public static final double LEVEL = 0.95;

  /** Two visits have a difference; how far it is from noise, a third one must tell. */
  public static final int LEAST_VISITS = 3;

  public SeriesTrend {
    Objects.requireNonNull(differenceUm, "differenceUm");
    Objects.requireNonNull(line, "line");
    Objects.requireNonNull(robust, "robust");
    Objects.requireNonNull(refusal, "refusal");
  }

  /** Returns how a series runs. */
  public static SeriesTrend of(VisitSeries series) {
    List<VisitPoint> points = series.measured();
    int n = points.size();
    long span = n == 0 ? 0 : points.get(n - 1).days() - points.get(0).days();
    OptionalDouble difference =
        n < 2
            ? OptionalDouble.empty()
            : OptionalDouble.of(change(points.get(n - 1)) - change(points.get(0)));
    if (n < LEAST_VISITS) {
      return refused(
          n,
          span,
          difference,
          String.format(
              Locale.ROOT, "a slope needs %d visits with a number, there are %d", LEAST_VISITS, n));
    }
    if (span == 0) {
      return refused(n, span, difference, "all visits are of one day");
    }
    double[] years = points.stream().mapToDouble(p -> p.days() / DAYS_PER_YEAR).toArray();
    double[] changes = points.stream().mapToDouble(SeriesTrend::change).toArray();
    return new SeriesTrend(
        n,
        span,
        difference,
        Optional.of(LinearTrend.of(years, changes, LEVEL)),
        Optional.of(TheilSen.of(years, changes, LEVEL)),
        Optional.empty());
  }

  private static SeriesTrend refused(int n, long span, OptionalDouble difference, String why) {
    return new SeriesTrend(
        n, span, difference, Optional.empty(), Optional.empty(), Optional.of(why));
  }

  private static double change(VisitPoint point) {
    return point.given().orElseThrow().changeUm();
  }
}
