package org.isopach.analysis.stat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LinearTrendTest {
  /** NIST StRD Norris, certified; 12 digits. */
  @Test
  void agreesWithNorris() {
    LinearTrend norris = of("norris.csv");

    Reference.close(-0.262323073774029, norris.intercept(), 1e-12);
    Reference.close(0.232818234301152, norris.interceptSe(), 1e-12);
    Reference.close(1.00211681802045, norris.slope(), 1e-12);
    Reference.close(0.429796848199937e-3, norris.slopeSe(), 1e-12);
    Reference.close(0.884796396144373, norris.residualSd(), 1e-12);
    Reference.close(0.999993745883712, norris.rSquared().orElseThrow(), 1e-14);
  }

  @Test
  void agreesWithTheReference() {
    for (String name : new String[] {"norris", "series"}) {
      LinearTrend found = of(name + ".csv");
      Reference.check(
          name + ".slope",
          found.slope(),
          found.slopeSe(),
          found.slopeInterval().lower(),
          found.slopeInterval().upper());
      Reference.check(
          name + ".intercept",
          found.intercept(),
          found.interceptSe(),
          found.interceptInterval().lower(),
          found.interceptInterval().upper());
      Reference.check(
          name + ".rest", found.residualSd(), found.rSquared().orElseThrow(), found.slopeP());
      Reference.check(
          name + ".at100", found.intervalAt(100).lower(), found.intervalAt(100).upper());
    }
  }

  @Test
  void saysWhatAPerfectAndALevelLineGive() {
    double[] x = {0, 7, 30};
    LinearTrend line = LinearTrend.of(x, new double[] {1, 15, 61}, 0.95);
    LinearTrend level = LinearTrend.of(x, new double[] {0.1, 0.1, 0.1}, 0.95);

    assertEquals(2, line.slope(), 1e-14);
    assertEquals(1, line.at(0), 1e-13);
    assertTrue(line.residualSd() < 1e-13 && line.slopeP() < 1e-10);
    assertEquals(0, level.slope());
    assertEquals(0, level.slopeSe());
    assertEquals(1, level.slopeP());
    assertTrue(level.rSquared().isEmpty());
  }

  @Test
  void refusesTwoPointsAndOneAbscissa() {
    double[] three = {1, 2, 3};
    double[] same = {0.1, 0.1, 0.1};
    assertEquals(
        CannotEstimateException.Reason.TOO_FEW, refusal(new double[] {1, 2}, new double[] {1, 2}));
    assertEquals(CannotEstimateException.Reason.NO_VARIATION, refusal(same, three));
    assertThrows(
        IllegalArgumentException.class, () -> LinearTrend.of(three, new double[] {1, 2}, 0.95));
    assertThrows(
        IllegalArgumentException.class,
        () -> LinearTrend.of(three, new double[] {1, 2, Double.NaN}, 0.95));
  }

  private static CannotEstimateException.Reason refusal(double[] x, double[] y) {
    return assertThrows(CannotEstimateException.class, () -> LinearTrend.of(x, y, 0.95)).reason();
  }

  private static LinearTrend of(String file) {
    double[][] rows = Reference.rows(file);
    return LinearTrend.of(Reference.column(rows, 0), Reference.column(rows, 1), 0.95);
  }
}
