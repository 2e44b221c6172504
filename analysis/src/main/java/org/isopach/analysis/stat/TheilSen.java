package org.isopach.analysis.stat;

import java.util.Arrays;
import java.util.Optional;

/**
 * The median of the slopes of all pairs of points with different x, with a distribution-free
 * interval (Sen, J Am Stat Assoc 1968;63:1379, from memory): the slopes at the ranks (N ∓ z σ) / 2
 * of the N slopes, σ² = (n(n−1)(2n+5) − Σ t(t−1)(2t+5)) / 18 with the sums over groups of t equal x
 * and of t equal y. Ranks are whole numbers, so that few points give more than the level (96.9 % of
 * intervals of 8 points hold the slope at 95 %). Up to 29 % of the points may be anything without
 * drawing the slope arbitrarily far.
 *
 * @param n number of points, at least 2
 * @param slope median slope, unit of y by unit of x
 * @param intercept median of y − slope x
 * @param slopeInterval interval of the slope; empty when even the outermost slopes hold the true
 *     one in fewer than the wanted share of cases, 1 − 2/n!; that is below 5 points for 95 %
 */
public record TheilSen(
    int n, double slope, double intercept, Optional<ConfidenceInterval> slopeInterval) {

  /**
   * Fits the line. Time and memory grow with the square of the number of points.
   *
   * @param x abscissas, finite, in any order
   * @param y ordinates, as many, finite
   * @param level of the interval, between 0 and 1
   * @throws CannotEstimateException when there are fewer than 2 points, or x does not vary
   * @throws IllegalArgumentException when lengths differ or a value is not finite
   */
  public static TheilSen of(double[] x, double[] y, double level) {
    Values.requirePaired(x, y);
    ConfidenceInterval.requireLevel(level);
    if (x.length < 2) {
      throw CannotEstimateException.tooFew("points", 2, x.length);
    }
    double[] slopes = sortedSlopes(x, y);
    if (slopes.length == 0) {
      throw new CannotEstimateException(
          CannotEstimateException.Reason.NO_VARIATION, "all points have the same abscissa");
    }
    double slope = medianOfSorted(slopes);
    double[] rest = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      rest[i] = y[i] - slope * x[i];
    }
    Arrays.sort(rest);
    return new TheilSen(x.length, slope, medianOfSorted(rest), interval(x, y, slopes, level));
  }

  private static double[] sortedSlopes(double[] x, double[] y) {
    double[] slopes = new double[Math.multiplyExact(x.length, x.length - 1) / 2];
    int count = 0;
    for (int i = 0; i < x.length; i++) {
      for (int j = i + 1; j < x.length; j++) {
        if (x[i] != x[j]) {
          slopes[count++] = (y[j] - y[i]) / (x[j] - x[i]);
        }
      }
    }
    double[] found = Arrays.copyOf(slopes, count);
    Arrays.sort(found);
    return found;
  }

  private static Optional<ConfidenceInterval> interval(
      double[] x, double[] y, double[] slopes, double level) {
    double outside = 2;
    for (int i = 2; i <= x.length && outside > 1 - level; i++) {
      outside /= i;
    }
    if (outside > 1 - level) {
      return Optional.empty();
    }
    double variance = (ties(x.length) - tieGroups(x) - tieGroups(y)) / 18;
    double spread = Quantiles.normal((1 + level) / 2) * Math.sqrt(Math.max(0, variance));
    long upper = Math.min(Math.round(Math.rint((slopes.length + spread) / 2)), slopes.length - 1);
    long lower = Math.max(Math.round(Math.rint((slopes.length - spread) / 2)) - 1, 0);
    return Optional.of(new ConfidenceInterval(slopes[(int) lower], slopes[(int) upper], level));
  }

  private static double tieGroups(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double sum = 0;
    int start = 0;
    for (int i = 1; i <= sorted.length; i++) {
      if (i == sorted.length || sorted[i] != sorted[start]) {
        sum += ties(i - start);
        start = i;
      }
    }
    return sum;
  }

  private static double ties(double t) {
    return t * (t - 1) * (2 * t + 5);
  }

  private static double medianOfSorted(double[] sorted) {
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }
}
