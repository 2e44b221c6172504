package org.isopach.analysis.stat;

import static org.isopach.analysis.stat.IntraclassCorrelation.Model.ONE_WAY_RANDOM;
import static org.isopach.analysis.stat.IntraclassCorrelation.Model.TWO_WAY_MIXED;
import static org.isopach.analysis.stat.IntraclassCorrelation.Model.TWO_WAY_RANDOM;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.isopach.analysis.stat.IntraclassCorrelation.Model;
import org.junit.jupiter.api.Test;

class IntraclassCorrelationTest {
  @Test
  void agreesWithTheReference() {
    double[][] flow =
        Arrays.stream(Reference.rows("peak-flow.csv"))
            .map(row -> Arrays.copyOf(row, 2))
            .toArray(double[][]::new);
    check("judges", Reference.rows("judges.csv"));
    check("peakFlow", flow);
    check("dyestuff", Reference.rows("dyestuff.csv"));
  }

  /** Shrout & Fleiss, Psychol Bull 1979;86:420, table 4: .17, .29 and .71. */
  @Test
  void agreesWithShroutAndFleiss() {
    double[][] judges = Reference.rows("judges.csv");

    assertEquals(0.17, of(ONE_WAY_RANDOM, judges).value(), 0.005);
    assertEquals(0.29, of(TWO_WAY_RANDOM, judges).value(), 0.005);
    assertEquals(0.71, of(TWO_WAY_MIXED, judges).value(), 0.005);
  }

  @Test
  void isOneForExactRepeatsAndNegativeForOpposites() {
    double[][] exact = {{271.3, 271.3}, {250.1, 250.1}, {300.7, 300.7}};
    double[][] opposite = {{1, 3}, {3, 1}, {1, 3}, {3, 1}};

    for (Model model : Model.values()) {
      assertEquals(1, of(model, exact).value());
      assertEquals(new ConfidenceInterval(1, 1, 0.95), of(model, exact).interval());
      assertTrue(of(model, opposite).value() < -0.9);
    }
  }

  /** Repeats that differ by far more than the two eyes do. */
  @Test
  void hasAnIntervalWithoutVarianceBetweenSubjects() {
    for (double off : new double[] {1e-6, 1e-3, 0.1}) {
      double[][] crossed = {{270, 274 + off}, {274, 270}};
      IntraclassCorrelation found = of(TWO_WAY_RANDOM, crossed);

      assertTrue(found.value() < -1, "there is no lower bound with two subjects: " + found);
      assertTrue(found.interval().lower() <= found.value() + 1e-9, found.toString());
    }
  }

  @Test
  void countsAShiftBetweenRepeatsUnlessMixed() {
    double[][] shifted = {{271, 281}, {250, 260}, {300, 310}, {262, 272}};

    assertEquals(1, of(TWO_WAY_MIXED, shifted).value());
    assertTrue(of(TWO_WAY_RANDOM, shifted).value() < 0.95);
  }

  @Test
  void keepsItsValueBetweenTheEndsOfItsInterval() {
    Random random = new Random(7);
    for (int trial = 0; trial < 300; trial++) {
      double[][] table = new double[2 + random.nextInt(8)][2];
      double share = random.nextDouble();
      for (double[] row : table) {
        double own = 20 * share * random.nextGaussian();
        row[0] = 270 + own + 5 * random.nextGaussian();
        row[1] = 270 + own + 5 * random.nextGaussian();
      }
      for (Model model : Model.values()) {
        IntraclassCorrelation found = of(model, table);
        assertTrue(found.interval().contains(found.value()), model + " " + found);
        assertTrue(found.interval().upper() <= 1, model + " " + found);
      }
    }
  }

  @Test
  void refusesTooFewAndNoVariation() {
    for (Model model : Model.values()) {
      assertEquals(
          CannotEstimateException.Reason.TOO_FEW, refusal(model, new double[][] {{1, 2}}).reason());
      assertEquals(
          CannotEstimateException.Reason.TOO_FEW,
          refusal(model, new double[][] {{1}, {2}}).reason());
      assertEquals(
          CannotEstimateException.Reason.NO_VARIATION,
          refusal(model, new double[][] {{0.1, 0.1}, {0.1, 0.1}}).reason());
    }
    double[][] ragged = {{1, 2}, {1}};
    assertThrows(IllegalArgumentException.class, () -> of(TWO_WAY_RANDOM, ragged));
  }

  private static CannotEstimateException refusal(Model model, double[][] table) {
    return assertThrows(CannotEstimateException.class, () -> of(model, table));
  }

  private static IntraclassCorrelation of(Model model, double[][] table) {
    return IntraclassCorrelation.of(model, table, 0.95);
  }

  private static void check(String key, double[][] table) {
    MeanSquares squares = MeanSquares.of(table);
    Reference.check(
        key + ".squares",
        squares.betweenSubjects(),
        squares.betweenRepeats(),
        squares.error(),
        squares.withinSubjects());
    Model[] models = {ONE_WAY_RANDOM, TWO_WAY_RANDOM, TWO_WAY_MIXED};
    for (int i = 0; i < models.length; i++) {
      IntraclassCorrelation found = of(models[i], table);
      Reference.check(
          key + ".icc" + (i + 1),
          found.value(),
          found.interval().lower(),
          found.interval().upper());
    }
  }
}
