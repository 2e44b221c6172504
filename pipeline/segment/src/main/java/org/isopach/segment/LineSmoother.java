package org.isopach.segment;

import java.util.Arrays;

/** Smooths a line along the scan with a Gaussian, weighting each A-scan by how clear it is. */
final class LineSmoother {
  private static final double REACH = 3;

  private LineSmoother() {}

  /**
   * Returns the weighted moving average of a line. Ends are treated by cutting the window and
   * keeping the local slope, so that a straight line with equal weights stays as it is.
   *
   * @param line values; none may be NaN
   * @param weight weight of each value, positive
   * @param sigma standard deviation in A-scans; below 0.3 the line is returned as it is
   */
  static float[] smooth(float[] line, float[] weight, double sigma) {
    if (sigma < 0.3) {
      return line.clone();
    }
    int reach = (int) Math.ceil(REACH * sigma);
    double[] kernel = new double[reach + 1];
    for (int k = 0; k <= reach; k++) {
      kernel[k] = Math.exp(-0.5 * k * k / (sigma * sigma));
    }
    float[] smooth = new float[line.length];
    for (int i = 0; i < line.length; i++) {
      smooth[i] = at(line, weight, kernel, i);
    }
    return smooth;
  }

  /** Returns the moving average of a line, every A-scan weighing the same. */
  static float[] smooth(float[] line, double sigma) {
    float[] equal = new float[line.length];
    Arrays.fill(equal, 1);
    return smooth(line, equal, sigma);
  }

  /**
   * Fits a straight line to the window around i by weighted least squares; returns its value at i.
   */
  private static float at(float[] line, float[] weight, double[] kernel, int i) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double t0 = 0;
    double t1 = 0;
    int from = Math.max(0, i - kernel.length + 1);
    int to = Math.min(line.length - 1, i + kernel.length - 1);
    for (int j = from; j <= to; j++) {
      int k = j - i;
      double w = kernel[Math.abs(k)] * weight[j];
      s0 += w;
      s1 += w * k;
      s2 += w * k * k;
      t0 += w * line[j];
      t1 += w * k * line[j];
    }
    double determinant = s0 * s2 - s1 * s1;
    if (determinant <= 1e-12 * s0 * s2) {
      return (float) (t0 / s0);
    }
    return (float) ((t0 * s2 - t1 * s1) / determinant);
  }
}
