package org.isopach.analysis.stat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TheilSenTest {
  @Test
  void agreesWithTheReferenceWithTiesAndOutliers() {
    for (String name : new String[] {"norris", "series"}) {
      double[][] rows = Reference.rows(name + ".csv");
      TheilSen found = TheilSen.of(Reference.column(rows, 0), Reference.column(rows, 1), 0.95);
      ConfidenceInterval interval = found.slopeInterval().orElseThrow();
      Reference.check(
          name + ".theilSen", found.slope(), found.intercept(), interval.lower(), interval.upper());
    }
  }

  /** The slope of a median line is the one with as many pairs above as below: tried one by one. */
  @Test
  void agreesWithASlowWayOfCounting() {
    Random random = new Random(3);
    for (int trial = 0; trial < 50; trial++) {
      int n = 3 + random.nextInt(20);
      double[] x = new double[n];
      double[] y = new double[n];
      for (int i = 0; i < n; i++) {
        x[i] = random.nextInt(12);
        y[i] = random.nextInt(40);
      }
      x[0] = -1;
      List<Double> slopes = new ArrayList<>();
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          if (x[i] < x[j]) {
            slopes.add((y[j] - y[i]) / (x[j] - x[i]));
          }
        }
      }
      double slope = TheilSen.of(x, y, 0.95).slope();
      long above = slopes.stream().filter(s -> s > slope).count();
      long below = slopes.stream().filter(s -> s < slope).count();
      assertTrue(2 * above <= slopes.size() && 2 * below <= slopes.size());
    }
  }

  @Test
  void isNotDrawnByOneWildPoint() {
    double[] x = {0, 1, 2, 3, 4, 5, 6};
    double[] y = {10, 12, 14, 1e9, 18, 20, 22};

    assertEquals(2, TheilSen.of(x, y, 0.95).slope());
    assertEquals(10, TheilSen.of(x, y, 0.95).intercept());
  }

  /** With four points 1 − 2/4! = 91.7 % is the most a distribution-free interval can hold. */
  @Test
  void givesNoIntervalThatFewPointsCannotHold() {
    double[] x = {0, 1, 2, 3, 4};
    double[] y = {5, 3, 8, 1, 2};

    assertTrue(TheilSen.of(x, y, 0.95).slopeInterval().isPresent());
    double[] four = {0, 1, 2, 3};
    double[] of = {5, 3, 8, 1};
    assertTrue(TheilSen.of(four, of, 0.95).slopeInterval().isEmpty());
    assertTrue(TheilSen.of(four, of, 0.90).slopeInterval().isPresent());
  }

  /**
   * Of 8 points the 6th and 23rd of 28 slopes are taken, which miss the true one when the residuals
   * have at most 5 inversions or as few the other way: 2 (1 + 7 + 27 + 76 + 174 + 343) of 8! orders
   * (Mahonian numbers), so 96.9 % hold. 2000 simulated series; binomial SD 0.4 %.
   */
  @Test
  void holdsTheTrueSlopeAsOftenAsItSays() {
    Random random = new Random(99);
    double[] x = {0, 28, 61, 90, 117, 150, 178, 212};
    int held = 0;
    for (int trial = 0; trial < 2000; trial++) {
      double[] y = new double[x.length];
      for (int i = 0; i < x.length; i++) {
        y[i] = 300 - 0.05 * x[i] + 3 * random.nextGaussian();
      }
      held += TheilSen.of(x, y, 0.95).slopeInterval().orElseThrow().contains(-0.05) ? 1 : 0;
    }
    assertEquals(1 - 2 * 628 / 40320.0, held / 2000.0, 0.012);
  }

  @Test
  void refusesOnePointAndOneAbscissa() {
    double[] one = {1};
    double[] same = {1, 1};
    assertThrows(CannotEstimateException.class, () -> TheilSen.of(one, one, 0.95));
    assertThrows(CannotEstimateException.class, () -> TheilSen.of(same, same, 0.95));
    assertThrows(IllegalArgumentException.class, () -> TheilSen.of(one, same, 0.95));
  }
}
