package org.isopach.align;

/** Smoothing by a Gaussian where values are missing: the mean over those that are there. */
final class Gaussian {
  private static final double REACH = 2.5;

  private Gaussian() {}

  /**
   * Returns the right half of a Gaussian, the middle first, not normalised.
   *
   * @param sigma standard deviation in samples; below 0.2 no smoothing
   */
  static double[] kernel(double sigma) {
    if (!(sigma >= 0.2)) {
      return new double[] {1};
    }
    double[] half = new double[1 + (int) Math.ceil(REACH * sigma)];
    for (int i = 0; i < half.length; i++) {
      half[i] = Math.exp(-0.5 * i * i / (sigma * sigma));
    }
    return half;
  }

  /**
   * Returns the smoothed value of one sample of a line, NaN where the sample itself is NaN.
   *
   * @param values holds the line
   * @param first index of the line's first sample
   * @param stride from sample to sample
   * @param count samples in the line
   * @param at the sample, 0-based
   */
  static double at(float[] values, int first, int stride, int count, int at, double[] kernel) {
    if (Float.isNaN(values[first + at * stride])) {
      return Double.NaN;
    }
    double sum = 0;
    double weights = 0;
    int from = Math.max(0, at - kernel.length + 1);
    int to = Math.min(count - 1, at + kernel.length - 1);
    for (int i = from; i <= to; i++) {
      float value = values[first + i * stride];
      if (!Float.isNaN(value)) {
        double weight = kernel[Math.abs(i - at)];
        sum += weight * value;
        weights += weight;
      }
    }
    return sum / weights;
  }
}
