package org.isopach.analysis.stat;

import java.util.OptionalDouble;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * A straight line through points by least squares, y = intercept + slope x, with intervals by
 * Student's t (n − 2 degrees of freedom). They suppose independent, normally distributed residuals
 * of one spread.
 *
 * @param n number of points, at least 3
 * @param slope slope, unit of y by unit of x
 * @param slopeSe its standard error; 0 when the points lie on the line
 * @param slopeInterval its interval
 * @param intercept value at x = 0
 * @param interceptSe its standard error
 * @param interceptInterval its interval
 * @param residualSd residual standard deviation, n − 2 degrees of freedom
 * @param rSquared share of the variance of y that the line explains; empty when y is constant
 * @param meanX mean of x
 */
public record LinearTrend(
    int n,
    double slope,
    double slopeSe,
    ConfidenceInterval slopeInterval,
    double intercept,
    double interceptSe,
    ConfidenceInterval interceptInterval,
    double residualSd,
    OptionalDouble rSquared,
    double meanX) {

  /**
   * Fits the line.
   *
   * @param x abscissas, finite, in any order
   * @param y ordinates, as many, finite
   * @param level of the intervals, between 0 and 1
   * @throws CannotEstimateException when there are fewer than 3 points, or x does not vary
   * @throws IllegalArgumentException when lengths differ or a value is not finite
   */
  public static LinearTrend of(double[] x, double[] y, double level) {
    Values.requirePaired(x, y);
    ConfidenceInterval.requireLevel(level);
    double[][] rows = new double[x.length][];
    for (int i = 0; i < x.length; i++) {
      rows[i] = new double[] {x[i]};
    }
    if (x.length >= 3 && Values.sumOfSquares(x) == 0) {
      throw new CannotEstimateException(
          CannotEstimateException.Reason.NO_VARIATION, "all points have the same abscissa");
    }
    LeastSquares fit = LeastSquares.fit(rows, y);
    LeastSquares.Term intercept = fit.terms().get(0);
    LeastSquares.Term slope = fit.terms().get(1);
    double t = Quantiles.twoSidedT(level, fit.degreesOfFreedom());
    return new LinearTrend(
        x.length,
        slope.estimate(),
        slope.standardError(),
        ConfidenceInterval.around(slope.estimate(), t * slope.standardError(), level),
        intercept.estimate(),
        intercept.standardError(),
        ConfidenceInterval.around(intercept.estimate(), t * intercept.standardError(), level),
        fit.residualSd(),
        fit.rSquared(),
        Values.mean(x));
  }

  /** Returns the line's ordinate at {@code x}. */
  public double at(double x) {
    return intercept + slope * x;
  }

  /** Returns the interval of the line (not of single points) at {@code x}. */
  public ConfidenceInterval intervalAt(double x) {
    double level = slopeInterval.level();
    double se = Math.hypot(residualSd / Math.sqrt(n), slopeSe * (x - meanX));
    return ConfidenceInterval.around(at(x), Quantiles.twoSidedT(level, n - 2.0) * se, level);
  }

  /**
   * Returns the two-sided p-value of a slope of 0; with a standard error of 0, 0 for any slope and
   * 1 for none.
   */
  public double slopeP() {
    if (slopeSe == 0) {
      return slope == 0 ? 1 : 0;
    }
    return 2 * new TDistribution(null, n - 2.0).cumulativeProbability(-Math.abs(slope / slopeSe));
  }
}
