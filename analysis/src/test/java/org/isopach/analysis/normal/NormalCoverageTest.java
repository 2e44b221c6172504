package org.isopach.analysis.normal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.Random;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.UniformRealDistribution;
import org.apache.commons.math3.stat.inference.ChiSquareTest;
import org.apache.commons.math3.stat.inference.KolmogorovSmirnovTest;
import org.isopach.analysis.normal.NormalPlace.Placed;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormalCoverageTest {
  private static final NormalEye ADULT = Groups.eye(50, 24);
  private static final int TABLES = 2000;

  /** 500 eyes of the group itself: each percentile is as likely as any other. */
  @Test
  void spreadsEyesOfTheGroupEvenlyOverThePercentiles() {
    double[] own = percentiles(93.42, 9.30);
    double[] thinner = percentiles(93.42 - 2, 9.30);
    double[] wider = percentiles(93.42, 1.25 * 9.30);

    assertTrue(kolmogorov(own) > 0.05, "own " + kolmogorov(own));
    assertTrue(chiSquare(own) > 0.05, "own " + chiSquare(own));
    assertTrue(kolmogorov(thinner) < 0.001, "thinner " + kolmogorov(thinner));
    assertTrue(chiSquare(wider) < 0.001, "wider " + chiSquare(wider));
  }

  /**
   * The group is drawn anew, its mean and SD estimated, and an eye at a known percentile of the
   * true distribution placed: the interval holds that percentile in about 95 % of cases.
   */
  @ParameterizedTest
  @CsvSource({"30,1", "30,50", "108,5", "108,95", "239,1", "239,25", "239,99.5"})
  void holdsTheTruePercentile(int n, double percentile) {
    double value = quantile(percentile);
    Random random = new Random(n + Math.round(10 * percentile));
    int held = 0;
    for (int k = 0; k < TABLES; k++) {
      Placed placed = place(value, drawn(n, random), OptionalDouble.empty());
      held += placed.interval().contains(percentile) ? 1 : 0;
    }
    assertEquals(0.95, (double) held / TABLES, 0.02, n + " people, percentile " + percentile);
  }

  /** The same with a scan that is off by its own noise. */
  @Test
  void holdsTheTruePercentileOfANoisyScan() {
    Random random = new Random(5);
    int held = 0;
    for (int k = 0; k < TABLES; k++) {
      double value = quantile(10) + 2.6 * random.nextGaussian();
      Placed placed = place(value, drawn(239, random), OptionalDouble.of(2.6));
      held += placed.interval().contains(10) ? 1 : 0;
    }
    assertEquals(0.95, (double) held / TABLES, 0.02);
  }

  private static ReferenceRow drawn(int n, Random random) {
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < n; i++) {
      double one = random.nextGaussian();
      sum += one;
      squares += one * one;
    }
    double sd = Math.sqrt((squares - sum * sum / n) / (n - 1));
    return Groups.global("drawn", 93.42 + 9.30 * sum / n, 9.30 * sd, n);
  }

  private static double[] percentiles(double mean, double sd) {
    Random random = new Random(500);
    double[] found = new double[500];
    for (int i = 0; i < found.length; i++) {
      double value = mean + sd * random.nextGaussian();
      found[i] = place(value, Groups.SEVERAL_SITES, OptionalDouble.empty()).percentile();
    }
    return found;
  }

  private static double kolmogorov(double[] percentiles) {
    return new KolmogorovSmirnovTest()
        .kolmogorovSmirnovTest(new UniformRealDistribution(null, 0, 100), percentiles);
  }

  private static double chiSquare(double[] percentiles) {
    long[] counts = new long[20];
    double[] expected = new double[20];
    Arrays.fill(expected, percentiles.length / 20.0);
    for (double percentile : percentiles) {
      counts[(int) Math.min(19, percentile / 5)]++;
    }
    return new ChiSquareTest().chiSquareTest(expected, counts);
  }

  private static double quantile(double percentile) {
    return 93.42
        + 9.30 * new NormalDistribution(null, 0, 1).inverseCumulativeProbability(percentile / 100);
  }

  private static Placed place(double value, ReferenceRow row, OptionalDouble repeat) {
    return (Placed) Groups.judge(row).place(value, Groups.circle(3.46), ADULT, repeat);
  }
}
