package org.isopach.analysis.stat;

/** Checks and plain means of arrays of finite values. */
final class Values {
  private Values() {}

  static void requireFinite(double[] values, String what) {
    for (int i = 0; i < values.length; i++) {
      if (!Double.isFinite(values[i])) {
        throw new IllegalArgumentException(what + " " + i + " is not finite: " + values[i]);
      }
    }
  }

  static void requirePaired(double[] first, double[] second) {
    if (first.length != second.length) {
      throw new IllegalArgumentException(
          "both must have the same length: " + first.length + ", " + second.length);
    }
    requireFinite(first, "first value");
    requireFinite(second, "second value");
  }

  /**
   * Returns the mean. Values are counted from the first one, so that equal values have a mean that
   * is exactly theirs.
   *
   * @param values at least one
   */
  static double mean(double[] values) {
    double sum = 0;
    for (double value : values) {
      sum += value - values[0];
    }
    return values[0] + sum / values.length;
  }

  /** Returns the sum of squared deviations from the mean, exactly 0 for equal values. */
  static double sumOfSquares(double[] values) {
    double mean = mean(values);
    double sum = 0;
    for (double value : values) {
      sum += (value - mean) * (value - mean);
    }
    return sum;
  }
}
