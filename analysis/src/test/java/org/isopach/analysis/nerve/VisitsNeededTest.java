package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.isopach.analysis.stat.LinearTrend;
import org.junit.jupiter.api.Test;

class VisitsNeededTest {
  /** Σ (t − mean)² of 0, 0.5, …, 5 is 27.5: 11 visits, spacing² n (n² − 1) / 12 = 0.25 · 110. */
  @Test
  void knowsTheSpreadOfVisitsInTime() {
    double[] years = halfYears(11);

    assertEquals(27.5, TrendDesign.at(years, 1).timeSquares(), 1e-12);
    assertEquals(27.5, TrendDesign.regular(11, 0.5, 1).timeSquares(), 1e-12);
    assertEquals(2.6 / Math.sqrt(27.5), TrendDesign.regular(11, 0.5, 2.6).slopeSe(), 1e-12);
  }

  /**
   * In closed form with normal quantiles: Σ (t − mean)² must reach ((1.960 + 0.842) · 2.6 / 1)² =
   * 53.07 years², which half-yearly visits, 0.25 n (n² − 1) / 12, do from n = 14 (56.9; 45.5 for
   * 13). Student's quantiles on 13 degrees of freedom, about 2.160 + 0.870 (any table), ask for
   * 62.1 years², n = 15 (70.0).
   */
  @Test
  void countsHalfYearlyVisits() {
    VisitsNeeded needed = VisitsNeeded.of(-1, 0.5, 2.6);

    int n = needed.visits().orElseThrow();
    assertEquals(15, n);
    assertEquals(7, needed.spanYears(), 1e-12);
    assertTrue(TrendDesign.regular(n, 0.5, 2.6).power(-1) >= 0.8);
    assertTrue(TrendDesign.regular(n - 1, 0.5, 2.6).power(-1) < 0.8);
    assertTrue(needed.words().contains("needs 15 visits over 7.0 years"), needed.words());
  }

  /** Twice the scatter at twice the spacing is the same slope in standard errors. */
  @Test
  void scalesWithScatterAndSpacing() {
    assertEquals(VisitsNeeded.of(-1, 0.5, 2.6).visits(), VisitsNeeded.of(1, 1, 5.2).visits());
    assertEquals(3, VisitsNeeded.of(-10, 1, 0.01).visits().orElseThrow());
    assertTrue(VisitsNeeded.of(-0.001, 0.01, 10).visits().isEmpty());
    assertTrue(VisitsNeeded.of(-0.001, 0.01, 10).words().contains("more than 200 visits"));
    assertThrows(IllegalArgumentException.class, () -> VisitsNeeded.of(0, 0.5, 2.6));
    assertThrows(IllegalArgumentException.class, () -> VisitsNeeded.of(-1, 0, 2.6));
  }

  /** As often as simulated series of −1 µm per year have a slope with p ≤ 0.05. */
  @Test
  void agreesWithSimulatedSeries() {
    Random random = new Random(17);
    for (int visits : new int[] {5, 9, 14}) {
      double[] years = halfYears(visits);
      int found = 0;
      int series = 3000;
      for (int k = 0; k < series; k++) {
        found += LinearTrend.of(years, falling(years, 2.6, random), 0.95).slopeP() <= 0.05 ? 1 : 0;
      }
      assertEquals(
          TrendDesign.at(years, 2.6).power(-1), (double) found / series, 0.025, visits + " visits");
    }
  }

  @Test
  void saysWhenTheVisitsAtHandAreTooFew() {
    TrendPower few = TrendPower.of(halfYears(5), 2.6, -1);
    TrendPower many = TrendPower.of(halfYears(15), 2.6, -1);

    assertTrue(few.tooLow());
    assertTrue(few.words().startsWith("too few visits to say: these 5 visits"), few.words());
    assertTrue(few.words().contains("needs 15 visits"), few.words());
    assertFalse(many.tooLow());
    assertFalse(many.words().contains("too few"), many.words());
    assertEquals(0.8, few.design().power(few.leastSlopeUmPerYear()), 1e-6);
    assertTrue(many.leastSlopeUmPerYear() < 1 && few.leastSlopeUmPerYear() > 1);
  }

  static double[] halfYears(int visits) {
    double[] years = new double[visits];
    for (int i = 0; i < visits; i++) {
      years[i] = 0.5 * i;
    }
    return years;
  }

  static double[] falling(double[] years, double sd, Random random) {
    double[] values = new double[years.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = 90 - years[i] + sd * random.nextGaussian();
    }
    return values;
  }
}
