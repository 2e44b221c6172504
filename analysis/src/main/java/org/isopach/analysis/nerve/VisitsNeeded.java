package org.isopach.analysis.nerve;

import java.util.Locale;
import java.util.OptionalInt;

/**
 * How many visits at equal distances it takes to tell a slope from 0.
 *
 * @param slopeUmPerYear the slope asked for in µm per year
 * @param spacingYears years from one visit to the next
 * @param sdUm scatter of one visit's value about the line in µm
 * @param visits least number with a power of {@link #POWER}; empty beyond {@link #MOST}
 */
public record VisitsNeeded(
    double slopeUmPerYear, double spacingYears, double sdUm, OptionalInt visits) {
  /** The power asked for; common practice, no source. */
  public static final double POWER = 0.80;

  /** More visits than that nobody makes. */
  public static final int MOST = 200;

  /**
   * Counts them.
   *
   * @throws IllegalArgumentException when the slope is 0, or spacing or scatter not above 0
   */
  public static VisitsNeeded of(double slopeUmPerYear, double spacingYears, double sdUm) {
    if (slopeUmPerYear == 0 || !Double.isFinite(slopeUmPerYear)) {
      throw new IllegalArgumentException("a slope to be told from 0, was " + slopeUmPerYear);
    }
    for (int n = 3; n <= MOST; n++) {
      if (TrendDesign.regular(n, spacingYears, sdUm).power(slopeUmPerYear) >= POWER) {
        return new VisitsNeeded(slopeUmPerYear, spacingYears, sdUm, OptionalInt.of(n));
      }
    }
    return new VisitsNeeded(slopeUmPerYear, spacingYears, sdUm, OptionalInt.empty());
  }

  /** Returns the years from the first visit to the last of those needed. */
  public double spanYears() {
    return (visits.orElse(MOST) - 1) * spacingYears;
  }

  /** Returns one sentence without a full stop. */
  public String words() {
    String what =
        String.format(
            Locale.ROOT,
            "a slope of %+.1f µm per year with visits every %.1f years and a scatter of %.1f µm",
            slopeUmPerYear,
            spacingYears,
            sdUm);
    return visits.isEmpty()
        ? what + " needs more than " + MOST + " visits"
        : String.format(
            Locale.ROOT,
            "%s needs %d visits over %.1f years to be found in 80 %% of cases",
            what,
            visits.getAsInt(),
            spanYears());
  }
}
