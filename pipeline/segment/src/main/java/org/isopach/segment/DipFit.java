package org.isopach.segment;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealVector;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * A least-squares fit of thickness samples by a tilted plane less a round Gaussian dip.
 *
 * @param centre where the dip's centre was put, mm
 * @param dip depth of the dip, µm; negative for a bump
 * @param explained share, 0 to 1, of the squared error left by the plane alone that the dip takes
 * @param gain the squared error taken by the dip, µm²
 */
record DipFit(FundusPoint centre, double dip, double explained, double gain) {

  /**
   * The shape that is fitted.
   *
   * @param windowMm radius of the window around the centre
   * @param sigmaMm standard deviation of the dip
   */
  record Shape(double windowMm, double sigmaMm) {}

  /**
   * Returns the fit at a centre, or null when the window holds fewer samples than needed or they do
   * not determine the fit.
   */
  static DipFit at(ThicknessSamples samples, FundusPoint centre, Shape shape, double needed) {
    double[][] normal = new double[4][4];
    double[] right = new double[4];
    double[] basis = new double[4];
    double squares = 0;
    int n = 0;
    double reach2 = shape.windowMm() * shape.windowMm();
    for (int i = 0; i < samples.count(); i++) {
      double x = samples.xMm(i) - centre.xMm();
      double y = samples.yMm(i) - centre.yMm();
      double r2 = x * x + y * y;
      if (r2 > reach2) {
        continue;
      }
      basis[0] = 1;
      basis[1] = x;
      basis[2] = y;
      basis[3] = -Math.exp(-r2 / (2 * shape.sigmaMm() * shape.sigmaMm()));
      double t = samples.micrometres(i);
      for (int j = 0; j < 4; j++) {
        for (int k = 0; k <= j; k++) {
          normal[j][k] += basis[j] * basis[k];
        }
        right[j] += basis[j] * t;
      }
      squares += t * t;
      n++;
    }
    return n < Math.max(12, needed) ? null : solve(centre, normal, right, squares);
  }

  private static DipFit solve(
      FundusPoint centre, double[][] normal, double[] right, double squares) {
    for (int i = 0; i < 4; i++) {
      for (int j = i + 1; j < 4; j++) {
        normal[i][j] = normal[j][i];
      }
    }
    RealVector b = new ArrayRealVector(right);
    RealVector b3 = b.getSubVector(0, 3);
    Array2DRowRealMatrix all = new Array2DRowRealMatrix(normal);
    DecompositionSolver withDip = new LUDecomposition(all).getSolver();
    DecompositionSolver plane = new LUDecomposition(all.getSubMatrix(0, 2, 0, 2)).getSolver();
    if (!withDip.isNonSingular() || !plane.isNonSingular()) {
      return null;
    }
    RealVector coefficients = withDip.solve(b);
    double left = squares - plane.solve(b3).dotProduct(b3);
    double gain = left - (squares - coefficients.dotProduct(b));
    return new DipFit(centre, coefficients.getEntry(3), left > 0 ? gain / left : 0, gain);
  }
}
