package org.isopach.analysis.nerve;

import java.util.Objects;

/**
 * A plan of visits: how much time they span and how far values scatter about the line.
 *
 * @param visits number of visits, at least 3
 * @param timeSquares Σ (t − mean t)² over the visits, years², above 0
 * @param sdUm standard deviation of one visit's value about the line in µm, above 0
 */
public record TrendDesign(int visits, double timeSquares, double sdUm) {
  public TrendDesign {
    if (visits < 3 || !(timeSquares > 0) || !(sdUm > 0) || Double.isInfinite(sdUm)) {
      throw new IllegalArgumentException(
          "3 visits, a span of time and a scatter above 0 are needed, were "
              + visits
              + ", "
              + timeSquares
              + ", "
              + sdUm);
    }
  }

  /** Returns visits at equal distances: Σ (t − mean t)² = spacing² n (n² − 1) / 12. */
  public static TrendDesign regular(int visits, double spacingYears, double sdUm) {
    double n = visits;
    return new TrendDesign(visits, spacingYears * spacingYears * n * (n * n - 1) / 12, sdUm);
  }

  /** Returns visits at given times in years. */
  public static TrendDesign at(double[] years, double sdUm) {
    Objects.requireNonNull(years, "years");
    double mean = 0;
    for (double year : years) {
      mean += year / years.length;
    }
    double sum = 0;
    for (double year : years) {
      sum += (year - mean) * (year - mean);
    }
    return new TrendDesign(years.length, sum, sdUm);
  }

  /** Returns the standard error of the slope in µm per year. */
  public double slopeSe() {
    return sdUm / Math.sqrt(timeSquares);
  }

  /** Returns the chance that a slope of so many µm per year is told from 0, two-sided at 5 %. */
  public double power(double slopeUmPerYear) {
    return NoncentralT.beyond(Math.abs(slopeUmPerYear) / slopeSe(), visits - 2);
  }

  /** Returns the least slope, in µm per year and without sign, told from 0 with such a power. */
  public double leastSlope(double power) {
    return NoncentralT.shiftFor(power, visits - 2) * slopeSe();
  }
}
