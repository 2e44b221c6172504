package org.isopach.segment;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealVector;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * A least-squares fit of thickness samples by a smooth background less a round Gaussian dip. The
 * background is a tilted plane, or a polynomial of second degree: its curvature takes up a swelling
 * wider than the pit, which would otherwise draw the dip towards its own slope.
 *
 * @param centre where the dip's centre was put, mm
 * @param dip depth of the dip, µm; negative for a bump
 * @param explained share, 0 to 1, of the squared error left by the background alone that the dip
 *     takes
 * @param gain the squared error taken by the dip, µm²
 */
record DipFit(FundusPoint centre, double dip, double explained, double gain) {

  /**
   * The shape that is fitted.
   *
   * @param windowMm radius of the window around the centre
   * @param sigmaMm standard deviation of the dip
   * @param background what the dip is taken from
   */
  record Shape(double windowMm, double sigmaMm, Background background) {}

  /** What the dip is taken from. */
  enum Background {
    PLANE(3),
    CURVED(6);

    private final int terms;

    Background(int terms) {
      this.terms = terms;
    }
  }

  /**
   * Returns the fit at a centre, or null when the window holds fewer samples than needed or they do
   * not determine the fit.
   */
  static DipFit at(ThicknessSamples samples, FundusPoint centre, Shape shape, double needed) {
    int smooth = shape.background().terms;
    int terms = smooth + 1;
    double[][] normal = new double[terms][terms];
    double[] right = new double[terms];
    double[] basis = new double[terms];
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
      if (shape.background() == Background.CURVED) {
        basis[3] = x * x;
        basis[4] = x * y;
        basis[5] = y * y;
      }
      basis[smooth] = -Math.exp(-r2 / (2 * shape.sigmaMm() * shape.sigmaMm()));
      double t = samples.micrometres(i);
      for (int j = 0; j < terms; j++) {
        for (int k = 0; k <= j; k++) {
          normal[j][k] += basis[j] * basis[k];
        }
        right[j] += basis[j] * t;
      }
      squares += t * t;
      n++;
    }
    return n < Math.max(3 * terms, needed) ? null : solve(centre, normal, right, squares);
  }

  private static DipFit solve(
      FundusPoint centre, double[][] normal, double[] right, double squares) {
    for (int i = 0; i < right.length; i++) {
      for (int j = i + 1; j < right.length; j++) {
        normal[i][j] = normal[j][i];
      }
    }
    int smooth = right.length - 1;
    RealVector b = new ArrayRealVector(right);
    RealVector background = b.getSubVector(0, smooth);
    Array2DRowRealMatrix all = new Array2DRowRealMatrix(normal);
    DecompositionSolver withDip = new LUDecomposition(all).getSolver();
    int last = smooth - 1;
    DecompositionSolver alone = new LUDecomposition(all.getSubMatrix(0, last, 0, last)).getSolver();
    if (!withDip.isNonSingular() || !alone.isNonSingular()) {
      return null;
    }
    RealVector coefficients = withDip.solve(b);
    double left = squares - alone.solve(background).dotProduct(background);
    double gain = left - (squares - coefficients.dotProduct(b));
    return new DipFit(centre, coefficients.getEntry(smooth), left > 0 ? gain / left : 0, gain);
  }
}
