package org.isopach.analysis.nerve;

import java.util.Arrays;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.LinearTrend;

/**
 * The slope of a profile sample by sample over visits, in µm per year, with p-values over all
 * samples together by Benjamini and Hochberg. NaN where a sample has fewer than 3 visits with a
 * value. Immutable.
 */
public final class ProfileTrend {
  private final double[] slope;
  private final double[] low;
  private final double[] high;
  private final double[] expected;
  private final double[] pAdjusted;

  private ProfileTrend(double[][] found, double[] expected) {
    this.slope = found[0];
    this.low = found[1];
    this.high = found[2];
    this.pAdjusted = ProfileChange.adjusted(found[3]);
    this.expected = expected;
  }

  /**
   * Fits every sample.
   *
   * @param years times of the visits in years of 365.25 days, finite
   * @param profilesUm (visits, samples) in µm, NaN for none; samples equally spaced round the
   *     circle
   * @param expectedUmPerYear (samples) what healthy eyes lose in a year, negative for thinning; NaN
   *     where not known
   * @throws IllegalArgumentException when the shapes do not fit
   */
  public static ProfileTrend of(double[] years, double[][] profilesUm, double[] expectedUmPerYear) {
    int samples = expectedUmPerYear.length;
    if (years.length != profilesUm.length
        || Arrays.stream(profilesUm).anyMatch(profile -> profile.length != samples)) {
      throw new IllegalArgumentException("one profile a visit, each of " + samples + " samples");
    }
    double[][] found = new double[4][samples];
    for (int i = 0; i < samples; i++) {
      fit(years, profilesUm, i, found);
    }
    return new ProfileTrend(found, expectedUmPerYear.clone());
  }

  private static void fit(double[] years, double[][] profiles, int sample, double[][] found) {
    double[] when = new double[years.length];
    double[] what = new double[years.length];
    int n = 0;
    boolean spread = false;
    for (int v = 0; v < years.length; v++) {
      if (!Double.isNaN(profiles[v][sample])) {
        when[n] = years[v];
        what[n++] = profiles[v][sample];
        spread |= when[n - 1] != when[0];
      }
    }
    if (n < NerveTrend.LEAST_VISITS || !spread) {
      for (double[] row : found) {
        row[sample] = Double.NaN;
      }
      return;
    }
    LinearTrend line =
        LinearTrend.of(
            Arrays.copyOf(when, n), Arrays.copyOf(what, n), ConfidenceInterval.USUAL_LEVEL);
    found[0][sample] = line.slope();
    found[1][sample] = line.slopeInterval().lower();
    found[2][sample] = line.slopeInterval().upper();
    found[3][sample] = line.slopeP();
  }

  /** Returns the number of samples round the circle. */
  public int samples() {
    return slope.length;
  }

  /** Returns a sample's slope in µm per year, or NaN. */
  public double slopeUmPerYear(int sample) {
    return slope[sample];
  }

  /** Returns the lower end of its 95 % interval, not widened for the number of samples. */
  public double lowUmPerYear(int sample) {
    return low[sample];
  }

  /** Returns the upper end. */
  public double highUmPerYear(int sample) {
    return high[sample];
  }

  /** Returns the slope less what age explains, in µm per year; NaN where either is not known. */
  public double slopeLessAgeing(int sample) {
    return slope[sample] - expected[sample];
  }

  /** Returns the p-value of a slope of 0, adjusted over the profile, or NaN. */
  public double pAdjusted(int sample) {
    return pAdjusted[sample];
  }

  /**
   * Returns what a sample's slope says: thinner, thicker, within the visits' scatter or unknown.
   */
  public EventVerdict verdict(int sample) {
    if (Double.isNaN(slope[sample])) {
      return EventVerdict.UNKNOWN;
    }
    if (pAdjusted[sample] > ProfileChange.LEVEL) {
      return EventVerdict.WITHIN;
    }
    return slope[sample] < 0 ? EventVerdict.THINNER : EventVerdict.THICKER;
  }
}
