package org.isopach.analysis.stat;

/**
 * Limits of agreement of two measurements of each subject.
 *
 * <p>The limits are bias ± 1.96 SD of the differences. Intervals are those of Bland &amp; Altman,
 * Lancet 1986;i:307: the standard error of the bias is SD / √n, that of a limit approximately √(3
 * SD² / n), and both are multiplied by Student's t with n − 1 degrees of freedom. They suppose
 * differences that are normally distributed and do not grow with the mean.
 *
 * @param n number of pairs, at least 3
 * @param bias mean difference
 * @param sd sample standard deviation of the differences; 0 when all are equal
 * @param lowerLimit bias − 1.96 SD
 * @param upperLimit bias + 1.96 SD
 * @param biasInterval interval of the bias
 * @param lowerLimitInterval interval of the lower limit
 * @param upperLimitInterval interval of the upper limit
 */
public record BlandAltman(
    int n,
    double bias,
    double sd,
    double lowerLimit,
    double upperLimit,
    ConfidenceInterval biasInterval,
    ConfidenceInterval lowerLimitInterval,
    ConfidenceInterval upperLimitInterval) {
  /** Fewer pairs are refused: with two, t has one degree of freedom and says nothing. Ours. */
  public static final int LEAST_PAIRS = 3;

  private static final double SPREAD = 1.96;

  /**
   * Returns the limits of agreement.
   *
   * @param differences one measurement less the other, for each subject; finite
   * @param level of the intervals, between 0 and 1; the limits are those of 95 % whatever it is
   * @throws CannotEstimateException when there are fewer than 3 pairs
   * @throws IllegalArgumentException when a difference is not finite
   */
  public static BlandAltman of(double[] differences, double level) {
    Values.requireFinite(differences, "difference");
    ConfidenceInterval.requireLevel(level);
    int n = differences.length;
    if (n < LEAST_PAIRS) {
      throw CannotEstimateException.tooFew("pairs", LEAST_PAIRS, n);
    }
    double bias = Values.mean(differences);
    double sd = Math.sqrt(Values.sumOfSquares(differences) / (n - 1));
    double t = Quantiles.twoSidedT(level, n - 1);
    double ofBias = t * sd / Math.sqrt(n);
    double ofLimit = t * sd * Math.sqrt(3.0 / n);
    double lower = bias - SPREAD * sd;
    double upper = bias + SPREAD * sd;
    return new BlandAltman(
        n,
        bias,
        sd,
        lower,
        upper,
        ConfidenceInterval.around(bias, ofBias, level),
        ConfidenceInterval.around(lower, ofLimit, level),
        ConfidenceInterval.around(upper, ofLimit, level));
  }
}
