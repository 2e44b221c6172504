package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ProfileTrendTest {
  @Test
  void findsWhereAProfileThins() {
    double[] years = VisitsNeededTest.halfYears(11);
    double[][] profiles = new double[11][];
    Random random = new Random(2);
    for (int v = 0; v < 11; v++) {
      double[] now = ChangingCircles.wedge(ChangingCircles.healthy(), 290, 40, 8 * years[v]);
      profiles[v] = ChangingCircles.scanned(now, random);
    }
    double[] expected = new double[ChangingCircles.SAMPLES];
    Arrays.fill(expected, -0.5);
    ProfileTrend trend = ProfileTrend.of(years, profiles, expected);
    int inside = 0;
    int thinner = 0;
    int vain = 0;
    double sum = 0;
    for (int i = 0; i < trend.samples(); i++) {
      if (ChangingCircles.away(i, 290) <= 20) {
        inside++;
        thinner += trend.verdict(i) == EventVerdict.THINNER ? 1 : 0;
        sum += trend.slopeUmPerYear(i);
        assertEquals(trend.slopeUmPerYear(i) + 0.5, trend.slopeLessAgeing(i), 1e-12);
      } else {
        vain += trend.verdict(i) == EventVerdict.WITHIN ? 0 : 1;
      }
    }
    // Shared noise of 2 µm, and 4 µm at about 40 / 5.3 places: standard error 0.5 µm per year.
    assertEquals(-8, sum / inside, 1.5);
    assertTrue(thinner > 0.9 * inside, thinner + " of " + inside);
    assertTrue(vain < 0.1 * trend.samples(), vain + " in vain");
  }

  @Test
  void agreesWithALineByHandAndNeedsThreeVisits() {
    double[][] profiles = {{100, 100, 90}, {99.1, Double.NaN, 90}, {97.9, 98, 90}, {97, 95, 90}};
    profiles[3][1] = Double.NaN;
    ProfileTrend trend =
        ProfileTrend.of(new double[] {0, 1, 2, 3}, profiles, new double[] {-0.5, -0.5, Double.NaN});

    assertEquals(-1.02, trend.slopeUmPerYear(0), 1e-9);
    assertTrue(trend.lowUmPerYear(0) < -1.02 && trend.highUmPerYear(0) > -1.02);
    assertEquals(EventVerdict.THINNER, trend.verdict(0));
    assertEquals(EventVerdict.UNKNOWN, trend.verdict(1));
    assertTrue(Double.isNaN(trend.slopeUmPerYear(1)) && Double.isNaN(trend.pAdjusted(1)));
    assertEquals(EventVerdict.WITHIN, trend.verdict(2));
    assertTrue(Double.isNaN(trend.slopeLessAgeing(2)));
    assertThrows(
        IllegalArgumentException.class,
        () -> ProfileTrend.of(new double[] {0, 1}, profiles, new double[3]));
  }
}
