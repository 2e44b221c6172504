package org.isopach.analysis.stat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Certified values of the NIST Statistical Reference Datasets, linear regression. */
class LeastSquaresTest {
  private static final double[][] LONGLEY = {
    {-3482258.63459582, 890420.383607373},
    {15.0618722713733, 84.9149257747669},
    {-0.358191792925910e-1, 0.334910077722432e-1},
    {-2.02022980381683, 0.488399681651699},
    {-1.03322686717359, 0.214274163161675},
    {-0.511041056535807e-1, 0.226073200069370},
    {1829.15146461355, 455.478499142212}
  };

  /** Nine digits are asked for; more than 13 are found, since the predictors are centred. */
  @Test
  void agreesWithLongley() {
    double[][] rows = Reference.rows("longley.csv");
    double[][] predictors =
        Arrays.stream(rows).map(row -> Arrays.copyOfRange(row, 1, 7)).toArray(double[][]::new);

    LeastSquares fit = LeastSquares.fit(predictors, Reference.column(rows, 0));

    for (int i = 0; i < LONGLEY.length; i++) {
      Reference.close(LONGLEY[i][0], fit.terms().get(i).estimate(), 1e-12);
      Reference.close(LONGLEY[i][1], fit.terms().get(i).standardError(), 1e-12);
    }
    Reference.close(304.854073561965, fit.residualSd(), 1e-12);
    Reference.close(0.995479004577296, fit.rSquared().orElseThrow(), 1e-13);
  }

  @Test
  void refusesConstantAndCombinedPredictors() {
    double[] y = {1, 2, 4, 3, 5};
    double[][] constant = {{1, 7}, {2, 7}, {3, 7}, {4, 7}, {6, 7}};
    double[][] combined = {{1, 3.1}, {2, 5.1}, {3, 7.1}, {4, 9.1}, {6, 13.1}};

    assertEquals(CannotEstimateException.Reason.COLLINEAR, refusal(constant, y));
    assertEquals(CannotEstimateException.Reason.COLLINEAR, refusal(combined, y));
    assertEquals(
        CannotEstimateException.Reason.TOO_FEW,
        refusal(new double[][] {{1, 2}, {2, 1}, {4, 4}}, new double[] {1, 2, 3}));
    assertThrows(
        IllegalArgumentException.class,
        () -> LeastSquares.fit(new double[][] {{1}, {2}, {3, 1}}, new double[] {1, 2, 3}));
  }

  private static CannotEstimateException.Reason refusal(double[][] predictors, double[] y) {
    return assertThrows(CannotEstimateException.class, () -> LeastSquares.fit(predictors, y))
        .reason();
  }
}
