package org.isopach.analysis.nerve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.series.AgeSlope;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.FalseDiscovery;
import org.isopach.analysis.stat.LinearTrend;
import org.isopach.analysis.stat.TheilSen;

/**
 * Fits the trend of one mean over visits. Definition and sources: docs/measurements.md, "Nerve
 * fibre progression".
 */
public final class TrendFitter {
  private static final double LEVEL = ConfidenceInterval.USUAL_LEVEL;

  private TrendFitter() {}

  /**
   * Returns a trend.
   *
   * @param place name of the place
   * @param years times of the visits in years of 365.25 days, any origin and order, finite
   * @param valuesUm mean at each visit in µm; NaN where there is none
   * @param ageing what healthy eyes lose in a year, or why that is not known
   * @param repeatSdUm within-subject standard deviation of one scan, for the power; where it is not
   *     known, the scatter about the line stands in
   * @throws IllegalArgumentException when the lengths differ or a time is not finite
   */
  public static NerveTrend fit(
      String place, double[] years, double[] valuesUm, AgeSlope ageing, OptionalDouble repeatSdUm) {
    Visits visits = Visits.measured(years, valuesUm);
    double span = visits.span();
    int n = visits.count();
    if (n < NerveTrend.LEAST_VISITS || span == 0) {
      String why =
          n < NerveTrend.LEAST_VISITS
              ? "it needs " + NerveTrend.LEAST_VISITS + " visits with a value, there are " + n
              : "all visits are of one time";
      return new NerveTrend(
          place,
          n,
          span,
          Optional.empty(),
          Optional.empty(),
          ageing,
          Optional.empty(),
          Optional.of(why),
          OptionalDouble.empty());
    }
    LinearTrend line = LinearTrend.of(visits.years, visits.valuesUm, LEVEL);
    double scatter = Math.max(repeatSdUm.orElse(0), line.residualSd());
    return new NerveTrend(
        place,
        n,
        span,
        Optional.of(line),
        Optional.of(TheilSen.of(visits.years, visits.valuesUm, LEVEL)),
        ageing,
        scatter > 0
            ? Optional.of(TrendPower.of(visits.years, scatter, TrendPower.USUAL_SLOPE))
            : Optional.empty(),
        Optional.empty(),
        OptionalDouble.of(line.slopeP()));
  }

  /**
   * Returns the trends of places asked together, in their order, each judged with the number of
   * those that have a slope allowed for.
   *
   * @param family for example the arcs of one scheme; the global mean, which is asked first of all,
   *     should be a family of its own
   */
  public static List<NerveTrend> judge(List<NerveTrend> family) {
    double[] alone =
        family.stream()
            .flatMap(trend -> trend.line().stream())
            .mapToDouble(LinearTrend::slopeP)
            .toArray();
    double[] adjusted = FalseDiscovery.benjaminiHochberg(alone);
    List<NerveTrend> judged = new ArrayList<>();
    int at = 0;
    for (NerveTrend trend : family) {
      judged.add(trend.line().isPresent() ? trend.adjusted(adjusted[at++]) : trend);
    }
    return List.copyOf(judged);
  }

  /** Visits with a value. */
  private static final class Visits {
    private final double[] years;
    private final double[] valuesUm;

    private Visits(double[] years, double[] valuesUm) {
      this.years = years;
      this.valuesUm = valuesUm;
    }

    static Visits measured(double[] years, double[] valuesUm) {
      if (years.length != valuesUm.length) {
        throw new IllegalArgumentException(
            "as many times as values: " + years.length + ", " + valuesUm.length);
      }
      double[] when = new double[years.length];
      double[] what = new double[years.length];
      int n = 0;
      for (int i = 0; i < years.length; i++) {
        if (!Double.isFinite(years[i])) {
          throw new IllegalArgumentException("time " + i + " is not finite: " + years[i]);
        }
        if (Double.isFinite(valuesUm[i])) {
          when[n] = years[i];
          what[n++] = valuesUm[i];
        }
      }
      return new Visits(Arrays.copyOf(when, n), Arrays.copyOf(what, n));
    }

    int count() {
      return years.length;
    }

    double span() {
      double first = Double.POSITIVE_INFINITY;
      double last = Double.NEGATIVE_INFINITY;
      for (double year : years) {
        first = Math.min(first, year);
        last = Math.max(last, year);
      }
      return years.length == 0 ? 0 : last - first;
    }
  }
}
