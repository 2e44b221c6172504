package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class DiscOpeningTest {
  private static final FundusPoint DISC = new FundusPoint(6.5, 3.75);
  private static final double A = 0.80;
  private static final double B = 0.95;

  /** A regular polygon of n corners on a circle has the area n r² sin(2 pi / n) / 2. */
  @ParameterizedTest
  @EnumSource(Laterality.class)
  void measuresACircle(Laterality eye) {
    DiscOpening opening = Openings.of(DISC, eye, d -> 0.9, d -> -250);

    assertEquals(36 * 0.81 * Math.sin(Math.toRadians(5)), opening.areaMm2(), 1e-12);
    assertEquals(Math.PI * 0.81, opening.areaMm2(), 0.0013 * Math.PI * 0.81);
    assertEquals(0, opening.centre().distanceMm(DISC), 1e-12);
    assertEquals(1.8, opening.longestMm(), 1e-12);
    assertEquals(1.8, opening.shortestMm(), 1e-12);
    assertEquals(1.0, opening.seenFraction());
    assertEquals(0, opening.tiltDegrees());
    assertEquals(0, opening.tiltTowardsDegrees());
    for (int i = 0; i < opening.samples(); i++) {
      assertEquals(0.9, opening.radiusMm(i), 1e-12);
      assertEquals(-250, opening.heightUm(i), 1e-9);
      assertEquals(5.0 * i, opening.angleDegrees(i));
      assertTrue(opening.seen(i));
    }
  }

  /** The area of an ellipse is pi a b; 72 corners take 0.13 % of it. */
  @ParameterizedTest
  @EnumSource(Laterality.class)
  void measuresAnEllipse(Laterality eye) {
    DiscOpening opening = Openings.of(DISC, eye, DiscOpeningTest::ellipse, d -> 0);

    assertEquals(Math.PI * A * B, opening.areaMm2(), 0.002 * Math.PI * A * B);
    assertTrue(opening.areaMm2() < Math.PI * A * B);
    assertEquals(2 * B, opening.longestMm(), 1e-12);
    assertEquals(2 * A, opening.shortestMm(), 1e-12);
    assertEquals(0, opening.centre().distanceMm(DISC), 1e-12);
  }

  /** Seen from a point beside the middle, a circle's ends lie at c + sqrt(r² - s²). */
  @ParameterizedTest
  @EnumSource(Laterality.class)
  void findsTheCentroidFromAnyPointInside(Laterality eye) {
    FundusPoint about = DISC.plus(new FundusPoint(0.3 * eye.nasalSign(), -0.2));
    DoubleUnaryOperator radius =
        degrees -> {
          double angle = Math.toRadians(degrees);
          // The middle lies 0.3 mm to temporal and 0.2 mm below.
          double along = 0.3 * Math.cos(angle) - 0.2 * Math.sin(angle);
          double across = -0.3 * Math.sin(angle) - 0.2 * Math.cos(angle);
          return along + Math.sqrt(0.81 - across * across);
        };

    DiscOpening opening = Openings.of(about, eye, radius, d -> 0);

    assertEquals(0, opening.centre().distanceMm(DISC), 0.001);
    assertEquals(Math.PI * 0.81, opening.areaMm2(), 0.003 * Math.PI * 0.81);
    for (int i = 0; i < opening.samples(); i++) {
      assertEquals(0.9, opening.radiusMm(i), 0.003);
      assertEquals(opening.radiusMm(i), opening.point(i).distanceMm(opening.centre()), 1e-12);
    }
  }

  /** A plane that falls 300 µm per mm towards 210 degrees: atan(0.3) = 16.699 degrees. */
  @ParameterizedTest
  @EnumSource(Laterality.class)
  void findsTheTiltOfAPlane(Laterality eye) {
    DoubleUnaryOperator height = d -> 120 - 300 * ellipse(d) * Math.cos(Math.toRadians(d - 210));

    DiscOpening opening = Openings.of(DISC, eye, DiscOpeningTest::ellipse, height);

    assertEquals(16.69924, opening.tiltDegrees(), 1e-5);
    assertEquals(210, opening.tiltTowardsDegrees(), 1e-9);
  }

  @Test
  void takesThePlaneThroughTheSeenEndsOnly() {
    boolean[] seen = new boolean[72];
    Arrays.fill(seen, true);
    Arrays.fill(seen, 10, 20, false);
    DoubleUnaryOperator height =
        d -> d >= 50 && d < 100 ? 900 : -150 * 0.9 * Math.cos(Math.toRadians(d));

    DiscOpening opening = Openings.of(DISC, Laterality.RIGHT, d -> 0.9, height, seen);

    assertEquals(Math.toDegrees(Math.atan(0.15)), opening.tiltDegrees(), 1e-9);
    assertEquals(0, DiscAngle.signed(opening.tiltTowardsDegrees()), 1e-9);
    assertEquals(62.0 / 72, opening.seenFraction());
    assertTrue(opening.seen(9));
    assertFalse(opening.seen(10));
    assertEquals(900, opening.heightUm(10));
  }

  @Test
  void containsWhatLiesInside() {
    DiscOpening opening = Openings.of(DISC, Laterality.LEFT, DiscOpeningTest::ellipse, d -> 0);
    Random random = new Random(7);
    int inside = 0;
    for (int i = 0; i < 20_000; i++) {
      double x = 2 * random.nextDouble() - 1;
      double y = 2 * random.nextDouble() - 1;
      double norm = Math.hypot(x / A, y / B);
      boolean found = opening.contains(DISC.plus(new FundusPoint(x, y)));
      inside += found ? 1 : 0;
      if (norm < 0.998 || norm > 1) {
        assertEquals(norm < 1, found);
      }
    }
    assertEquals(opening.areaMm2() / 4, inside / 20_000.0, 0.012, "3.5 SD of a binomial");
    assertEquals(72, opening.corners().size());
    assertEquals(A, opening.corners().get(0).distanceMm(DISC), 1e-12);
  }

  @Test
  void mirrorsToTheLastBit() {
    Random random = new Random(12);
    double[] radius = random.doubles(72, 0.7, 1.0).toArray();
    double[] height = random.doubles(72, -300, 100).toArray();
    boolean[] seen = new boolean[72];
    for (int i = 0; i < seen.length; i++) {
      seen[i] = random.nextInt(5) > 0;
    }

    DiscOpening right = DiscOpening.of(DISC, Laterality.RIGHT, radius, height, seen);
    DiscOpening left =
        DiscOpening.of(
            new FundusPoint(-DISC.xMm(), DISC.yMm()), Laterality.LEFT, radius, height, seen);

    assertEquals(-right.centre().xMm(), left.centre().xMm());
    assertEquals(right.centre().yMm(), left.centre().yMm());
    assertEquals(right.areaMm2(), left.areaMm2());
    assertEquals(right.tiltDegrees(), left.tiltDegrees());
    for (int i = 0; i < 72; i++) {
      assertEquals(right.radiusMm(i), left.radiusMm(i));
      assertEquals(right.heightUm(i), left.heightUm(i));
      assertEquals(right.seen(i), left.seen(i));
    }
  }

  @Test
  void refusesWhatIsNoContour() {
    boolean[] none = new boolean[72];
    boolean[] line = new boolean[72];
    line[0] = true;
    line[36] = true;
    boolean[] three = line.clone();
    three[20] = true;
    DoubleUnaryOperator flat = d -> 0;
    assertThrows(IllegalArgumentException.class, () -> right(d -> 0.9, flat, none));
    assertThrows(IllegalArgumentException.class, () -> right(d -> 0.9, flat, line));
    assertEquals(0, right(d -> 0.9, flat, three).tiltDegrees());
    assertThrows(IllegalArgumentException.class, () -> right(d -> 0, flat, three));
    assertThrows(IllegalArgumentException.class, () -> right(d -> Double.NaN, flat, three));
    assertThrows(IllegalArgumentException.class, () -> right(d -> 1, d -> Double.NaN, three));
    assertThrows(IllegalArgumentException.class, () -> right(d -> 1, flat, new boolean[71]));
    // Two narrow lobes at a right angle: their centroid lies outside of both.
    DoubleUnaryOperator lobes = d -> d < 20 || Math.abs(d - 90) < 20 || d > 340 ? 2 : 0.05;
    assertThrows(IllegalArgumentException.class, () -> right(lobes, flat, three));
  }

  private static DiscOpening right(
      DoubleUnaryOperator radius, DoubleUnaryOperator height, boolean[] seen) {
    return Openings.of(DISC, Laterality.RIGHT, radius, height, seen);
  }

  private static double ellipse(double degrees) {
    double angle = Math.toRadians(degrees);
    return 1 / Math.hypot(Math.cos(angle) / A, Math.sin(angle) / B);
  }
}
