package org.isopach.analysis.stat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * Ordinary least squares with an intercept and any number of predictors, by a QR decomposition of
 * the predictors less their means.
 *
 * @param terms the intercept, then one term for each predictor in their order
 * @param n number of points
 * @param residualSquares sum of squared residuals
 * @param totalSquares sum of squared deviations of the response from its mean
 */
public record LeastSquares(List<Term> terms, int n, double residualSquares, double totalSquares) {
  /** A predictor counts as a combination of others when less than this share of it is its own. */
  private static final double COLLINEAR_SHARE = 1e-11;

  /**
   * A fitted coefficient.
   *
   * @param estimate the coefficient
   * @param standardError its standard error; 0 when the points lie on the fit
   */
  public record Term(double estimate, double standardError) {}

  public LeastSquares {
    terms = List.copyOf(terms);
  }

  /**
   * Fits the response.
   *
   * @param predictors a row for each point, all of one length of at least 1, finite
   * @param response a value for each point, finite
   * @throws CannotEstimateException when there are not at least two points more than predictors,
   *     when a predictor is constant or a combination of others
   * @throws IllegalArgumentException when lengths do not fit or a value is not finite
   */
  public static LeastSquares fit(double[][] predictors, double[] response) {
    requireShape(predictors, response);
    int n = response.length;
    int width = predictors[0].length;
    double[] means = new double[width];
    RealMatrix centred = new Array2DRowRealMatrix(n, width);
    for (int j = 0; j < width; j++) {
      double[] column = new Array2DRowRealMatrix(predictors, false).getColumn(j);
      means[j] = Values.mean(column);
      for (int i = 0; i < n; i++) {
        centred.setEntry(i, j, column[i] - means[j]);
      }
    }
    double responseMean = Values.mean(response);
    RealVector deviations = new ArrayRealVector(response).mapSubtract(responseMean);
    QRDecomposition qr = new QRDecomposition(centred);
    RealMatrix upper = qr.getR().getSubMatrix(0, width - 1, 0, width - 1);
    requireIndependent(upper, predictors);
    RealVector slopes = qr.getSolver().solve(deviations);
    double residual = squares(deviations.subtract(centred.operate(slopes)));
    double variance = residual / (n - width - 1);
    RealMatrix inverse = inverse(upper);
    RealVector mean = new ArrayRealVector(means, false);
    List<Term> terms = new ArrayList<>();
    double level = 1.0 / n + squares(inverse.preMultiply(mean));
    terms.add(new Term(responseMean - mean.dotProduct(slopes), Math.sqrt(variance * level)));
    for (int j = 0; j < width; j++) {
      double own = squares(inverse.getRowVector(j));
      terms.add(new Term(slopes.getEntry(j), Math.sqrt(variance * own)));
    }
    return new LeastSquares(terms, n, residual, squares(deviations));
  }

  /** Returns points less coefficients, at least 1. */
  public int degreesOfFreedom() {
    return n - terms.size();
  }

  /** Returns the residual standard deviation, with that many degrees of freedom. */
  public double residualSd() {
    return Math.sqrt(residualSquares / degreesOfFreedom());
  }

  /** Returns the share of the response's variance that the fit explains; empty when it has none. */
  public OptionalDouble rSquared() {
    return totalSquares > 0
        ? OptionalDouble.of(1 - residualSquares / totalSquares)
        : OptionalDouble.empty();
  }

  private static void requireShape(double[][] predictors, double[] response) {
    if (predictors.length != response.length) {
      throw new IllegalArgumentException(
          predictors.length + " rows of predictors for " + response.length + " responses");
    }
    Values.requireFinite(response, "response");
    int width = predictors.length == 0 ? 1 : predictors[0].length;
    for (double[] row : predictors) {
      if (row.length != width || width == 0) {
        throw new IllegalArgumentException("rows of predictors differ in length or are empty");
      }
      Values.requireFinite(row, "predictor");
    }
    if (response.length < width + 2) {
      throw CannotEstimateException.tooFew("points", width + 2, response.length);
    }
  }

  private static void requireIndependent(RealMatrix upper, double[][] predictors) {
    RealMatrix plain = new Array2DRowRealMatrix(predictors, false);
    for (int j = 0; j < upper.getColumnDimension(); j++) {
      double own = Math.abs(upper.getEntry(j, j));
      if (own <= COLLINEAR_SHARE * plain.getColumnVector(j).getNorm()) {
        throw new CannotEstimateException(
            CannotEstimateException.Reason.COLLINEAR,
            "predictor " + j + " is constant or a combination of those before it");
      }
    }
  }

  private static RealMatrix inverse(RealMatrix upper) {
    RealMatrix inverse = MatrixUtils.createRealIdentityMatrix(upper.getRowDimension());
    for (int j = 0; j < upper.getRowDimension(); j++) {
      RealVector column = inverse.getColumnVector(j);
      MatrixUtils.solveUpperTriangularSystem(upper, column);
      inverse.setColumnVector(j, column);
    }
    return inverse;
  }

  private static double squares(RealVector vector) {
    return vector.dotProduct(vector);
  }
}
