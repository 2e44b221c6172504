package org.isopach.align;

/** Pearson's correlation of pairs, gathered one by one. */
final class Correlation {
  private int count;
  private double sumA;
  private double sumB;
  private double squaresA;
  private double squaresB;
  private double products;

  void clear() {
    count = 0;
    sumA = 0;
    sumB = 0;
    squaresA = 0;
    squaresB = 0;
    products = 0;
  }

  void add(double a, double b) {
    count++;
    sumA += a;
    sumB += b;
    squaresA += a * a;
    squaresB += b * b;
    products += a * b;
  }

  int count() {
    return count;
  }

  /** Returns the correlation from -1 to 1, NaN when either side does not vary. */
  double value() {
    double varianceA = squaresA - sumA * sumA / count;
    double varianceB = squaresB - sumB * sumB / count;
    return varianceA > 0 && varianceB > 0
        ? (products - sumA * sumB / count) / Math.sqrt(varianceA * varianceB)
        : Double.NaN;
  }
}
