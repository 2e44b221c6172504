package org.isopach.align;

/** How one value changes with the unknowns it depends on; used over and over. */
final class Slopes {
  private static final int MOST = 10;

  final int[] index = new int[MOST];
  final double[] slope = new double[MOST];
  int count;

  void clear() {
    count = 0;
  }

  /** Adds an unknown; indexes must grow. */
  void add(int unknown, double by) {
    index[count] = unknown;
    slope[count] = by;
    count++;
  }

  /** Returns the variance of the value under a covariance of the unknowns. */
  double variance(double[][] covariance) {
    double sum = 0;
    for (int i = 0; i < count; i++) {
      for (int j = 0; j < count; j++) {
        sum += slope[i] * slope[j] * covariance[index[i]][index[j]];
      }
    }
    return sum;
  }
}
