package org.isopach.analysis.change;

import org.isopach.analysis.map.MapLattice;

/**
 * Smooths what lies on a lattice with a Gaussian, by a normalised convolution: cells without a
 * value stay without and lend nothing to their neighbours.
 */
final class SmoothMap {
  private static final double REACH = 3;

  private SmoothMap() {}

  /**
   * Returns the smoothed values, NaN where {@code values} has NaN.
   *
   * @param values index {@code row * columns + column}
   * @param sigmaMm standard deviation of the Gaussian in mm
   */
  static float[] of(float[] values, MapLattice lattice, double sigmaMm) {
    float[] kernel = kernel(sigmaMm / lattice.stepMm());
    float[] sum = new float[values.length];
    float[] weight = new float[values.length];
    for (int i = 0; i < values.length; i++) {
      boolean there = !Float.isNaN(values[i]);
      sum[i] = there ? values[i] : 0;
      weight[i] = there ? 1 : 0;
    }
    sum = both(sum, lattice, kernel);
    weight = both(weight, lattice, kernel);
    for (int i = 0; i < values.length; i++) {
      sum[i] = Float.isNaN(values[i]) ? Float.NaN : sum[i] / weight[i];
    }
    return sum;
  }

  private static float[] kernel(double sigma) {
    int reach = (int) Math.ceil(REACH * sigma);
    float[] kernel = new float[2 * reach + 1];
    for (int i = -reach; i <= reach; i++) {
      kernel[i + reach] = (float) Math.exp(-0.5 * i * i / (sigma * sigma));
    }
    return kernel;
  }

  private static float[] both(float[] values, MapLattice lattice, float[] kernel) {
    int rows = lattice.rows();
    int columns = lattice.columns();
    float[] across = new float[values.length];
    for (int row = 0; row < rows; row++) {
      line(values, across, kernel, row * columns, 1, columns);
    }
    float[] down = new float[values.length];
    for (int column = 0; column < columns; column++) {
      line(across, down, kernel, column, columns, rows);
    }
    return down;
  }

  private static void line(float[] from, float[] to, float[] kernel, int first, int step, int n) {
    int reach = kernel.length / 2;
    for (int i = 0; i < n; i++) {
      float sum = 0;
      for (int k = Math.max(0, i - reach); k <= Math.min(n - 1, i + reach); k++) {
        sum += kernel[k - i + reach] * from[first + k * step];
      }
      to[first + i * step] = sum;
    }
  }
}
