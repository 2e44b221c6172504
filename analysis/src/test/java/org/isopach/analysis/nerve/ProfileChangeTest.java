package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ProfileChangeTest {
  @Test
  void marksAWedgeSampleBySample() {
    double[] healthy = ChangingCircles.healthy();
    double[] sick = ChangingCircles.wedge(healthy, 290, 30, 40);
    Random random = new Random(4);
    ProfileChange change =
        ProfileChange.of(
            ChangingCircles.scanned(healthy, random),
            ChangingCircles.scanned(sick, random),
            ChangingCircles.NOISE);
    int hits = 0;
    int inside = 0;
    int vain = 0;
    for (int i = 0; i < change.samples(); i++) {
      boolean wedge = ChangingCircles.away(i, 290) <= 15;
      boolean thinner = change.verdict(i) == EventVerdict.THINNER;
      inside += wedge ? 1 : 0;
      hits += wedge && thinner ? 1 : 0;
      vain += !wedge && change.verdict(i) != EventVerdict.WITHIN ? 1 : 0;
    }
    assertTrue(hits > 0.95 * inside, hits + " of " + inside);
    assertTrue(vain <= 0.15 * hits, vain + " in vain");
    assertEquals(30 / 360.0, change.thinnerShare(), 0.02);
  }

  /** Without any change a false discovery is any discovery: at most 5 % of pairs have one. */
  @Test
  void seldomMarksAnUnchangedProfile() {
    double[] healthy = ChangingCircles.healthy();
    Random random = new Random(6);
    int marked = 0;
    for (int k = 0; k < 1000; k++) {
      ProfileChange change =
          ProfileChange.of(
              ChangingCircles.scanned(healthy, random),
              ChangingCircles.scanned(healthy, random),
              ChangingCircles.NOISE);
      boolean any = false;
      for (int i = 0; i < change.samples(); i++) {
        any |= change.verdict(i) != EventVerdict.WITHIN;
      }
      marked += any ? 1 : 0;
    }
    assertTrue(marked <= 65, marked + " of 1000");
  }

  @Test
  void countsSamplesWithoutAValueNotAtAll() {
    double[] first = new double[90];
    double[] second = new double[90];
    Arrays.fill(second, Double.NaN);
    // z = −2.5 alone is beyond noise, and stays so with 89 samples untested.
    second[7] = -2.5 * Math.sqrt(2) * Math.hypot(4, 2);
    ProfileChange change = ProfileChange.of(first, second, ChangingCircles.NOISE);

    // 2 Φ(−2.5) = 0.01242 (table of the normal distribution).
    assertEquals(0.01242, change.pAdjusted(7), 1e-5);
    assertEquals(EventVerdict.THINNER, change.verdict(7));
    assertEquals(EventVerdict.UNKNOWN, change.verdict(8));
    assertTrue(Double.isNaN(change.changeUm(8)));
    assertThrows(
        IllegalArgumentException.class,
        () -> ProfileChange.of(first, new double[91], ChangingCircles.NOISE));
  }
}
