package org.isopach.analysis.nerve;

import java.util.Locale;
import java.util.Objects;

/**
 * What the visits at hand can show.
 *
 * @param design the visits at hand
 * @param slopeUmPerYear the slope asked for in µm per year
 * @param power chance that it is told from 0, two-sided at 5 %
 * @param leastSlopeUmPerYear least slope found with 80 % power, without sign
 * @param needed how many visits at the mean distance of those at hand it takes
 */
public record TrendPower(
    TrendDesign design,
    double slopeUmPerYear,
    double power,
    double leastSlopeUmPerYear,
    VisitsNeeded needed) {
  /** The slope asked for when none is named: that of fast loss is −2, of slow loss up to −1. */
  public static final double USUAL_SLOPE = -1;

  public TrendPower {
    Objects.requireNonNull(design, "design");
    Objects.requireNonNull(needed, "needed");
  }

  /**
   * Returns the power of visits.
   *
   * @param years times of at least 3 visits in years, not all equal
   * @param sdUm scatter of one visit's value about the line in µm, above 0
   * @param slopeUmPerYear the slope asked for, not 0
   */
  public static TrendPower of(double[] years, double sdUm, double slopeUmPerYear) {
    TrendDesign design = TrendDesign.at(years, sdUm);
    double first = Double.POSITIVE_INFINITY;
    double last = Double.NEGATIVE_INFINITY;
    for (double year : years) {
      first = Math.min(first, year);
      last = Math.max(last, year);
    }
    double spacing = (last - first) / (years.length - 1);
    return new TrendPower(
        design,
        slopeUmPerYear,
        design.power(slopeUmPerYear),
        design.leastSlope(VisitsNeeded.POWER),
        VisitsNeeded.of(slopeUmPerYear, spacing, sdUm));
  }

  /** Returns whether the slope asked for would be missed in more than 20 % of cases. */
  public boolean tooLow() {
    return power < VisitsNeeded.POWER;
  }

  /** Returns one sentence without a full stop. */
  public String words() {
    String found =
        String.format(
            Locale.ROOT,
            "these %d visits would find a slope of %+.1f µm per year in %.0f %% of cases"
                + " (one of ±%.1f µm per year in 80 %%)",
            design.visits(),
            slopeUmPerYear,
            100 * power,
            leastSlopeUmPerYear);
    return tooLow() ? "too few visits to say: " + found + "; " + needed.words() : found;
  }
}
