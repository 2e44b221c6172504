package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ProfileTurnTest {
  private static final int SAMPLES = 768;
  private static final double STEP = 360.0 / SAMPLES;

  /** Two humps with vessels on them, in closed form. */
  private static double at(double degrees) {
    double humps = 95 + 35 * Math.cos(Math.toRadians(2 * (degrees - 85)));
    return humps
        + 8 * Math.cos(Math.toRadians(11 * degrees))
        + 5 * Math.sin(Math.toRadians(23 * degrees));
  }

  private static double[] profile(double turnedBy) {
    double[] values = new double[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
      values[i] = at(i * STEP - turnedBy);
    }
    return values;
  }

  @Test
  void aTurnIsFoundToAQuarterOfADegree() {
    for (double turn : new double[] {-7.3, -2, 0, 0.6, 3.1, 8.9}) {
      assertEquals(turn, ProfileTurn.degrees(profile(0), profile(turn)), 0.25);
    }
  }

  @Test
  void laterLiesOnEarlierOnceTurned() {
    double[] turned = ProfileTurn.onto(profile(0), profile(4 * STEP));
    assertArrayEquals(profile(0), turned, 0.6);
  }

  @Test
  void aLocalLossAndNoiseAndThinningDoNotTurnIt() {
    double[] later = profile(2.5);
    Random random = new Random(3);
    for (int i = 0; i < SAMPLES; i++) {
      double away = Math.IEEEremainder(i * STEP - 290, 360) / 10;
      later[i] += 3 * random.nextGaussian() - 6 - 30 * Math.exp(-away * away);
    }
    assertEquals(2.5, ProfileTurn.degrees(profile(0), later), 0.5);
  }

  @Test
  void noTurnIsSaidWhereNoneFits() {
    assertEquals(Double.NaN, ProfileTurn.degrees(profile(0), profile(14)), 0);
    assertEquals(Double.NaN, ProfileTurn.onto(profile(0), profile(14))[100], 0);
    double[] half = profile(3);
    Arrays.fill(half, 0, 500, Double.NaN);
    assertEquals(Double.NaN, ProfileTurn.degrees(profile(0), half), 0);
  }

  @Test
  void aGapIsCarriedAlong() {
    double[] values = profile(0);
    values[10] = Double.NaN;
    double[] turned = ProfileTurn.turned(values, 4.5 * STEP);
    assertEquals(Double.NaN, turned[5], 0);
    assertEquals(Double.NaN, turned[6], 0);
    assertEquals((values[11] + values[12]) / 2, turned[7], 1e-12);
    assertEquals(values[4], ProfileTurn.turned(values, 4 * STEP)[0], 1e-12);
  }

  @Test
  void profilesOfTwoLengthsAreRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> ProfileTurn.degrees(new double[SAMPLES], new double[360]));
  }
}
