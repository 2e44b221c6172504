package org.isopach.analysis.map;

/**
 * Sums area and integral of quadrilaterals, each cut into four triangles as {@link QuadRaster}
 * does. A corner without value makes the integral NaN; the area is still right.
 */
final class QuadIntegral implements QuadTaker {
  private static final int CORNERS = 4;

  private final double[] x = new double[CORNERS];
  private final double[] y = new double[CORNERS];
  private final double[] value = new double[CORNERS];
  private double area;
  private double sum;

  @Override
  public void corner(int index, double xMm, double yMm, double here) {
    x[index] = xMm;
    y[index] = yMm;
    value[index] = here;
  }

  @Override
  public void draw() {
    double middleX = middle(x);
    double middleY = middle(y);
    double middleValue = middle(value);
    for (int k = 0; k < CORNERS; k++) {
      int next = (k + 1) % CORNERS;
      double cross =
          (x[k] - middleX) * (y[next] - middleY) - (y[k] - middleY) * (x[next] - middleX);
      double triangle = Math.abs(cross) / 2;
      area += triangle;
      sum += triangle * ((value[k] + value[next]) + middleValue) / 3;
    }
  }

  double areaMm2() {
    return area;
  }

  double sum() {
    return sum;
  }

  private static double middle(double[] corners) {
    return ((corners[0] + corners[1]) + (corners[2] + corners[3])) / CORNERS;
  }
}
