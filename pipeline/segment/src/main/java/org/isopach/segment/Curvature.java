package org.isopach.segment;

import java.util.List;
import org.apache.commons.math3.analysis.polynomials.PolynomialFunction;
import org.apache.commons.math3.fitting.PolynomialCurveFitter;
import org.apache.commons.math3.fitting.WeightedObservedPoint;
import org.apache.commons.math3.fitting.WeightedObservedPoints;

/** The curvature of a line across a frame. */
final class Curvature {
  private static final double MOST_ROUGH_MM = 0.03;
  private static final int LEAST_ROW = 2;

  private Curvature() {}

  /**
   * Returns the curvature of the parabola nearest to a line by least squares, in 1/mm: positive
   * when the middle lies nearer to the instrument than the ends. Columns where the line runs along
   * the top of the frame are left out. 0 when fewer than half the columns are left, or when the
   * line strays from the parabola by more than 30 µm (root mean square): it is then no arc.
   *
   * @param rows depth of the line in each column, in rows
   * @param widthMm from the first to the last column
   * @param rowMm depth of one row
   */
  static double perMm(int[] rows, double widthMm, double rowMm) {
    WeightedObservedPoints points = new WeightedObservedPoints();
    for (int c = 0; c < rows.length; c++) {
      if (rows[c] >= LEAST_ROW) {
        points.add(((double) c / (rows.length - 1) - 0.5) * widthMm, rows[c] * rowMm);
      }
    }
    List<WeightedObservedPoint> line = points.toList();
    if (line.size() < Math.max(4, rows.length / 2)) {
      return 0;
    }
    double[] coefficients = PolynomialCurveFitter.create(2).fit(line);
    return rough(line, coefficients) > MOST_ROUGH_MM ? 0 : 2 * coefficients[2];
  }

  private static double rough(List<WeightedObservedPoint> line, double[] coefficients) {
    PolynomialFunction parabola = new PolynomialFunction(coefficients);
    return Math.sqrt(
        line.stream()
            .mapToDouble(point -> point.getY() - parabola.value(point.getX()))
            .map(away -> away * away)
            .average()
            .orElse(0));
  }
}
