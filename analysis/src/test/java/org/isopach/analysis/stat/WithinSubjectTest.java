package org.isopach.analysis.stat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class WithinSubjectTest {
  @Test
  void agreesWithThePeakFlowsOfBlandAndAltman() {
    double[][] flow = Reference.rows("peak-flow.csv");
    WithinSubject large = pairs(flow, 0);
    WithinSubject mini = pairs(flow, 2);

    Reference.check("peakFlow.large", all(large));
    Reference.check("peakFlow.mini", all(mini));
    // The paper gives twice the standard deviation of differences, 43.2 and 56.4 l/min about 0.
    assertEquals(43.2, large.sd() * Math.sqrt(2) * 2, 0.2);
    assertEquals(56.4, mini.sd() * Math.sqrt(2) * 2, 0.2);
    assertEquals(17, large.degreesOfFreedom());
    assertEquals(34, large.values());
  }

  @Test
  void isTheRootOfHalfTheMeanSquaredDifferenceOfPairs() {
    double[][] flow = Reference.rows("peak-flow.csv");
    double sum = 0;
    for (double[] row : flow) {
      sum += (row[0] - row[1]) * (row[0] - row[1]);
    }

    Reference.close(Math.sqrt(sum / (2 * flow.length)), pairs(flow, 0).sd(), 1e-13);
  }

  @Test
  void agreesWithAnAnalysisOfVarianceForMoreRepeatsAndUnequalNumbers() {
    Reference.check(
        "dyestuff", all(WithinSubject.of(Arrays.asList(Reference.rows("dyestuff.csv")), 0.95)));
    List<double[]> uneven =
        List.of(
            new double[] {251, 253.5},
            new double[] {301.2, 299.9, 300.4, 305},
            new double[] {275, 270.5, 271});
    WithinSubject pooled = WithinSubject.of(uneven, 0.95);

    Reference.check("uneven", all(pooled));
    assertEquals(6, pooled.degreesOfFreedom());
    assertEquals(
        100 * pooled.sd() / pooled.mean(), pooled.coefficientOfVariationPercent().orElseThrow());
  }

  @Test
  void givesTheCoefficientOfRepeatabilityItsFactor() {
    WithinSubject large = pairs(Reference.rows("peak-flow.csv"), 0);

    Reference.close(2.771859, large.coefficientOfRepeatability() / large.sd(), 1e-6);
    Reference.close(
        2.771859,
        large.coefficientOfRepeatabilityInterval().upper() / large.sdInterval().upper(),
        1e-6);
  }

  @Test
  void isZeroForEqualRepeatsAndHasNoVariationCoefficientAboutAMeanOfZero() {
    WithinSubject equal =
        WithinSubject.of(List.of(new double[] {0.1, 0.1, 0.1}, new double[] {-0.1, -0.1}), 0.95);

    assertEquals(0, equal.sd());
    assertEquals(new ConfidenceInterval(0, 0, 0.95), equal.sdInterval());
    assertTrue(equal.coefficientOfVariationPercent().isEmpty());
  }

  @Test
  void refusesWhatHasNoRepeats() {
    assertThrows(CannotEstimateException.class, () -> WithinSubject.of(List.of(), 0.95));
    assertThrows(
        IllegalArgumentException.class, () -> WithinSubject.of(List.of(new double[] {1}), 0.95));
    assertThrows(
        IllegalArgumentException.class,
        () -> WithinSubject.of(List.of(new double[] {1, Double.NaN}), 0.95));
    assertThrows(
        IllegalArgumentException.class, () -> WithinSubject.of(List.of(new double[] {1, 2}), 1));
  }

  private static WithinSubject pairs(double[][] rows, int first) {
    return WithinSubject.of(
        Arrays.stream(rows).map(row -> Arrays.copyOfRange(row, first, first + 2)).toList(), 0.95);
  }

  private static double[] all(WithinSubject within) {
    return new double[] {
      within.sd(), within.sdInterval().lower(), within.sdInterval().upper(), within.mean()
    };
  }
}
