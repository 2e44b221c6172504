package org.isopach.analysis.stat;

/**
 * Intraclass correlation of single measurements with its interval by the F distribution (Shrout &
 * Fleiss, Psychol Bull 1979;86:420; McGraw &amp; Wong, Psychol Methods 1996;1:30; from memory). It
 * is the share of the variance that lies between subjects, so it depends on how different the
 * subjects are: the same instrument has a higher one in a mixed group. Estimates may be negative.
 *
 * @param model which correlation
 * @param meanSquares what it was computed from
 * @param value the estimate, at most 1; 1 when repeats agree exactly and subjects differ
 * @param interval its interval; both ends 1 when the estimate is
 */
public record IntraclassCorrelation(
    Model model, MeanSquares meanSquares, double value, ConfidenceInterval interval) {

  /** The model behind the correlation, by the names of Shrout &amp; Fleiss. */
  public enum Model {
    /** ICC(1,1): repeats are not told apart. */
    ONE_WAY_RANDOM,
    /** ICC(2,1): subjects and repeats are samples; a shift between repeats counts as error. */
    TWO_WAY_RANDOM,
    /** ICC(3,1): a shift between repeats does not count. */
    TWO_WAY_MIXED
  }

  /**
   * Returns the correlation.
   *
   * @param model which one
   * @param table a row for each subject with its repeats in order, at least 2 × 2, finite
   * @param level of the interval, between 0 and 1
   * @throws CannotEstimateException when there are fewer than 2 subjects or repeats, or no
   *     variation (0 / 0)
   * @throws IllegalArgumentException when rows differ in length or a value is not finite
   */
  public static IntraclassCorrelation of(Model model, double[][] table, double level) {
    ConfidenceInterval.requireLevel(level);
    MeanSquares squares = MeanSquares.of(table);
    return switch (model) {
      case ONE_WAY_RANDOM ->
          oneFactor(
              model,
              squares,
              squares.withinSubjects(),
              squares.subjects() * (squares.repeats() - 1.0),
              level);
      case TWO_WAY_MIXED ->
          oneFactor(
              model,
              squares,
              squares.error(),
              (squares.subjects() - 1.0) * (squares.repeats() - 1),
              level);
      case TWO_WAY_RANDOM -> twoWayRandom(squares, level);
    };
  }

  private static IntraclassCorrelation oneFactor(
      Model model, MeanSquares squares, double error, double errorDf, double level) {
    double between = squares.betweenSubjects();
    double more = squares.repeats() - 1;
    double df = squares.subjects() - 1;
    double p = (1 + level) / 2;
    double shrink = Quantiles.f(p, df, errorDf);
    double stretch = Quantiles.f(p, errorDf, df);
    double lower = ratio(between - shrink * error, between + more * shrink * error);
    double upper = ratio(stretch * between - error, stretch * between + more * error);
    double value = ratio(between - error, between + more * error);
    return new IntraclassCorrelation(
        model, squares, value, new ConfidenceInterval(lower, upper, level));
  }

  private static IntraclassCorrelation twoWayRandom(MeanSquares squares, double level) {
    double n = squares.subjects();
    double k = squares.repeats();
    double between = squares.betweenSubjects();
    double error = squares.error();
    double rest = (k * squares.betweenRepeats() + (k * n - k - n) * error) / n;
    double value = ratio(between - error, between + rest);
    ConfidenceInterval interval;
    if (rest == 0 && error == 0) {
      interval = new ConfidenceInterval(1, 1, level);
    } else {
      double df = satterthwaite(squares, Math.max(0, value));
      double p = (1 + level) / 2;
      double shrink = Quantiles.f(p, n - 1, df);
      double stretch = Quantiles.f(p, df, n - 1);
      double lower = (between - shrink * error) / (shrink * rest + between);
      double upper = (stretch * between - error) / (rest + stretch * between);
      // Without variance between subjects both are the same number but for rounding.
      interval = new ConfidenceInterval(Math.min(lower, upper), upper, level);
    }
    return new IntraclassCorrelation(Model.TWO_WAY_RANDOM, squares, value, interval);
  }

  /**
   * Returns the degrees of freedom of the error's variance in ICC(2,1).
   *
   * @param correlation the estimate; 0 for a negative one, which no correlation of variances can be
   *     (ours: with the estimate itself the degrees of freedom may come near 0)
   */
  private static double satterthwaite(MeanSquares squares, double correlation) {
    double n = squares.subjects();
    double k = squares.repeats();
    double a = k * correlation * squares.betweenRepeats();
    double b = (n * (1 - correlation) + k * correlation * (n - 1)) * squares.error();
    return (a + b) * (a + b) / (a * a / (k - 1) + b * b / ((n - 1) * (k - 1)));
  }

  private static double ratio(double numerator, double denominator) {
    if (denominator == 0) {
      throw new CannotEstimateException(
          CannotEstimateException.Reason.NO_VARIATION,
          "values do not vary between subjects or repeats");
    }
    return numerator / denominator;
  }
}
