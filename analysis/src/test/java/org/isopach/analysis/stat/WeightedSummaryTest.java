package org.isopach.analysis.stat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * The NIST Statistical Reference Datasets NumAcc1 to NumAcc4 (univariate summary statistics) are
 * built from a rule, so that their certified mean and sample standard deviation are exact; rule and
 * values cited from memory, and evident from the rule.
 */
class WeightedSummaryTest {
  @Test
  void agreesWithNumAcc1() {
    check(new double[] {10000001, 10000003, 10000002}, 10000002, 1, 1e-15);
  }

  @Test
  void agreesWithNumAcc2() {
    check(numAcc(1.2, 1.1, 1.3), 1.2, 0.1, 1e-14);
  }

  @Test
  void agreesWithNumAcc3() {
    // Ten digits of the standard deviation: its values are not exact in binary.
    check(numAcc(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 1e-9);
  }

  @Test
  void agreesWithNumAcc4() {
    // Eight digits of the standard deviation, for the same reason.
    check(numAcc(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 1e-7);
  }

  @Test
  void countsAWeightAsThatManyRepeats() {
    Random random = new Random(20260302);
    double[] values = new double[50];
    double[] weights = new double[50];
    double[] repeated = new double[500];
    int n = 0;
    for (int i = 0; i < values.length; i++) {
      values[i] = 200 + 150 * random.nextDouble();
      weights[i] = random.nextInt(10);
      for (int k = 0; k < weights[i]; k++) {
        repeated[n++] = values[i];
      }
    }

    WeightedSummary weighted = WeightedSummary.of(values, weights, 50);
    WeightedSummary plain = WeightedSummary.of(repeated, ones(repeated.length), n);

    assertEquals(n, weighted.weight());
    assertEquals(plain.mean(), weighted.mean(), 1e-11);
    assertEquals(plain.populationSd(), weighted.populationSd(), 1e-11);
  }

  @Test
  void givesASingleValueNoSpread() {
    WeightedSummary one = WeightedSummary.of(new double[] {271.5, 9}, new double[] {0.3, 1}, 1);

    assertEquals(271.5, one.mean(), 1e-12);
    assertEquals(0, one.populationSd(), 1e-12);
    assertEquals(271.5, one.min());
    assertEquals(271.5, one.max());
  }

  @Test
  void refusesWhatHasNoMean() {
    double[] two = {1, 2};
    assertThrows(IllegalArgumentException.class, () -> WeightedSummary.of(two, two, 0));
    assertThrows(IllegalArgumentException.class, () -> WeightedSummary.of(two, two, 3));
    assertThrows(IllegalArgumentException.class, () -> WeightedSummary.of(two, new double[2], 2));
    assertThrows(
        IllegalArgumentException.class,
        () -> WeightedSummary.of(new double[] {1, Double.NaN}, two, 2));
  }

  private static void check(double[] values, double mean, double sampleSd, double relative) {
    WeightedSummary summary = WeightedSummary.of(values, ones(values.length), values.length);
    double n = values.length;

    assertEquals(mean, summary.mean(), mean * 1e-15);
    assertEquals(sampleSd, summary.populationSd() * Math.sqrt(n / (n - 1)), sampleSd * relative);
  }

  /** Returns a first value, then 500 times a low and a high one. */
  private static double[] numAcc(double first, double low, double high) {
    double[] values = new double[1001];
    values[0] = first;
    for (int i = 1; i < values.length; i++) {
      values[i] = i % 2 == 1 ? low : high;
    }
    return values;
  }

  private static double[] ones(int count) {
    double[] ones = new double[count];
    Arrays.fill(ones, 1);
    return ones;
  }
}
