package org.isopach.align;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * Weighted least squares with few unknowns in each fact: gathers facts {@code slope · change =
 * -residual} and solves for the change. Only the lower triangle is filled while gathering.
 */
final class NormalEquations {
  private static final double RIDGE = 1e-9;
  private static final double SYMMETRY = 1e-6;

  private final int n;
  private final double[] gradient;
  private final double[][] normal;

  NormalEquations(int unknowns) {
    this.n = unknowns;
    this.gradient = new double[n];
    this.normal = new double[n][n];
  }

  void clear() {
    Arrays.fill(gradient, 0);
    for (double[] row : normal) {
      Arrays.fill(row, 0);
    }
  }

  /** Adds a fact about the unknowns named by their growing indexes. */
  void add(Slopes slopes, double residual, double weight) {
    for (int i = 0; i < slopes.count; i++) {
      int row = slopes.index[i];
      double scaled = weight * slopes.slope[i];
      gradient[row] += scaled * residual;
      for (int j = 0; j <= i; j++) {
        normal[row][slopes.index[j]] += scaled * slopes.slope[j];
      }
    }
  }

  /** Adds the wish that an unknown, now at a value, be zero. */
  void pull(int unknown, double value, double weight) {
    gradient[unknown] += weight * value;
    normal[unknown][unknown] += weight;
  }

  /** Adds the wish that two unknowns, now so much apart, be equal; the second index is smaller. */
  void tie(int unknown, int other, double difference, double weight) {
    gradient[unknown] += weight * difference;
    gradient[other] -= weight * difference;
    normal[unknown][unknown] += weight;
    normal[other][other] += weight;
    normal[unknown][other] -= weight;
  }

  void multiply(double factor) {
    for (int i = 0; i < n; i++) {
      gradient[i] *= factor;
      for (int j = 0; j <= i; j++) {
        normal[i][j] *= factor;
      }
    }
  }

  /** Returns what is to be taken from each unknown. */
  double[] solve() {
    return decomposition().getSolver().solve(new ArrayRealVector(gradient, false)).toArray();
  }

  /** Returns the covariance of the unknowns when every fact weighs its inverse variance. */
  double[][] covariance() {
    return decomposition().getSolver().getInverse().getData();
  }

  private CholeskyDecomposition decomposition() {
    for (int i = 0; i < n; i++) {
      normal[i][i] += RIDGE + RIDGE * normal[i][i];
      for (int j = 0; j < i; j++) {
        normal[j][i] = normal[i][j];
      }
    }
    RealMatrix matrix = new Array2DRowRealMatrix(normal, false);
    return new CholeskyDecomposition(matrix, SYMMETRY, 0);
  }
}
