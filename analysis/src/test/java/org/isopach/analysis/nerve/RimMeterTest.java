package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.testing.Surface;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Expected widths are distances in closed form from the end to lines and circles. */
class RimMeterTest {
  private static final FundusPoint DISC = new FundusPoint(5, 4);
  private static final double R = 0.8;

  @Test
  void isTheHeightOfALevelSurface() {
    RimProfile rim = measure(Laterality.RIGHT, -100, (x, y) -> 150);

    for (int i = 0; i < rim.samples(); i++) {
      assertEquals(250, rim.widthUm(i), 1e-9);
      assertEquals(R, rim.nearestMm(i), 1e-9);
      assertEquals(5.0 * i, rim.angleDegrees(i));
    }
    assertEquals(1.0, rim.coveredFraction());
  }

  /**
   * A surface that rises k µm per µm to temporal cuts the radial plane at angle t in a line of
   * slope k cos t; the end's distance to it is what lies above the end, over sqrt(1 + (k cos t)²).
   */
  @ParameterizedTest
  @EnumSource(Laterality.class)
  void isTheDistanceToASlope(Laterality eye) {
    double k = 0.4;
    Surface slope = (x, y) -> 400 + 1000 * k * (-eye.nasalSign() * x);

    RimProfile rim = measure(eye, 0, slope);

    for (int i = 0; i < rim.samples(); i++) {
      double cos = Math.cos(Math.toRadians(5.0 * i));
      double above = 400 + 1000 * k * R * cos;
      assertEquals(above / Math.hypot(1, k * cos), rim.widthUm(i), 1e-3);
    }
  }

  /**
   * A cup that is the lower part of a sphere of radius 0.6 mm round a point 0.3 mm above the
   * opening's plane: sqrt(0.8² + 0.3²) - 0.6 = 0.254400 mm. Read from a lattice of 5 µm, whose
   * chords miss the sphere by 0.05 µm.
   */
  @Test
  void isTheDistanceToARoundCup() {
    Surface cup =
        (x, y) -> {
          double r = Math.hypot(x, y);
          return r < 0.6 ? 300 - 1000 * Math.sqrt(0.36 - r * r) : 320;
        };
    DiscOpening opening = Openings.of(DISC, Laterality.RIGHT, d -> R, d -> 0);

    RimProfile rim = RimMeter.measure(opening, Openings.surface(DISC, 0.005, cup));

    for (int i = 0; i < rim.samples(); i++) {
      assertEquals(254.400, rim.widthUm(i), 0.1);
      assertEquals(0.6 * R / Math.hypot(R, 0.3), rim.nearestMm(i), 0.005);
    }
  }

  /** A level opening that is no circle, under a level surface: the height, whatever its shape. */
  @Test
  void startsFromEachEnd() {
    DiscOpening opening =
        Openings.of(
            DISC,
            Laterality.LEFT,
            d -> 0.8 + 0.1 * Math.cos(Math.toRadians(2 * d)),
            d -> 10 * Math.sin(Math.toRadians(d)));

    RimProfile rim = RimMeter.measure(opening, Openings.surface(DISC, 0.02, (x, y) -> 300));

    for (int i = 0; i < rim.samples(); i++) {
      assertEquals(300 - 10 * Math.sin(Math.toRadians(5.0 * i)), rim.widthUm(i), 1e-3);
    }
  }

  @Test
  void refusesAnAngleWhereAGapCouldHideSomethingNearer() {
    // To the right of the disc nothing is known from 0.15 mm outside the opening on.
    RimProfile far = measure(Laterality.RIGHT, 0, (x, y) -> x > R + 0.15 ? Double.NaN : 120);
    RimProfile near = measure(Laterality.RIGHT, 0, (x, y) -> x > R + 0.15 ? Double.NaN : 180);

    assertEquals(120, far.widthUm(36), 1e-9);
    assertTrue(Double.isNaN(near.widthUm(36)));
    assertTrue(Double.isNaN(near.nearestMm(36)));
    assertEquals(180, near.widthUm(0), 1e-9);
    // The gap begins at the last cell with a height: R + 0.14, or sooner by a step of 5 µm.
    RimProfile just = measure(Laterality.RIGHT, 0, (x, y) -> x > R + 0.15 ? Double.NaN : 134);
    RimProfile over = measure(Laterality.RIGHT, 0, (x, y) -> x > R + 0.15 ? Double.NaN : 141);
    assertEquals(134, just.widthUm(36), 1e-9);
    assertTrue(Double.isNaN(over.widthUm(36)));
  }

  @Test
  void refusesWhatIsFartherThanItLooked() {
    assertTrue(Double.isNaN(measure(Laterality.LEFT, 0, (x, y) -> 1010).widthUm(3)));
    assertEquals(990, measure(Laterality.LEFT, 0, (x, y) -> 990).widthUm(3), 1e-9);
    assertEquals(0, measure(Laterality.LEFT, 0, (x, y) -> Double.NaN).coveredFraction());
  }

  @Test
  void measuresBetweenSeenEndsThatAreNear() {
    boolean[] seen = new boolean[72];
    for (int i = 0; i < 72; i += 6) {
      seen[i] = i != 24;
    }
    DiscOpening opening = Openings.of(DISC, Laterality.RIGHT, d -> R, d -> 0, seen);

    RimProfile rim = RimMeter.measure(opening, Openings.surface(DISC, 0.02, (x, y) -> 200));

    for (int i = 0; i < 72; i++) {
      boolean wide = i > 18 && i < 30;
      assertEquals(wide, Double.isNaN(rim.widthUm(i)), "sample " + i);
    }
  }

  @Test
  void givesSectors() {
    // 60 µm more on the nasal half than on the temporal one, by the height of the ends.
    DiscOpening opening =
        Openings.of(DISC, Laterality.RIGHT, d -> R, d -> d > 90 && d < 270 ? -60 : 0);
    RimProfile rim = RimMeter.measure(opening, Openings.surface(DISC, 0.02, (x, y) -> 200));

    RimTable table = ArcTabulator.tabulate(rim, ArcSchemes.QUADRANTS);

    assertEquals(200, mean(table, "temporal"), 1e-9);
    assertEquals(260, mean(table, "nasal"), 1e-9);
    // Of the 90 degrees from 45 on, those from 92.5 on are of higher samples.
    assertEquals(200 + 60 * 42.5 / 90, mean(table, "superior"), 1e-9);
    assertEquals(200 + 60 * 175.0 / 360, mean(table, "global"), 1e-9);
    assertEquals(1.0, table.global().coveredFraction());
  }

  @Test
  void turnsAnglesWithoutResampling() {
    DiscOpening opening = Openings.of(DISC, Laterality.RIGHT, d -> R, d -> d == 45 ? -50 : 0);
    RimProfile rim =
        RimMeter.measure(opening, Openings.surface(DISC, 0.02, (x, y) -> 200))
            .countedFrom(AngleZero.foveaDiscLine(7));

    assertEquals(52, rim.angleDegrees(9), 1e-12);
    assertEquals(250, rim.widthUm(9), 1e-9);
    // The sample from 49.5 to 54.5 degrees lies in the superior quadrant as a whole.
    RimTable table = ArcTabulator.tabulate(rim, ArcSchemes.QUADRANTS);
    assertEquals(200 + 50 * 5.0 / 90, mean(table, "superior"), 1e-9);
    assertEquals(200, mean(table, "temporal"), 1e-9);
  }

  @Test
  void mirrorsToTheLastBit() {
    Random random = new Random(21);
    double[] radius = random.doubles(72, 0.75, 0.85).toArray();
    double[] height = random.doubles(72, -50, 0).toArray();
    boolean[] seen = new boolean[72];
    Arrays.fill(seen, true);
    Surface rough = (x, y) -> 200 + 90 * Math.sin(5 * x + 1) * Math.cos(4 * y);
    FundusPoint mirror = new FundusPoint(-DISC.xMm(), DISC.yMm());

    RimProfile right =
        RimMeter.measure(
            DiscOpening.of(DISC, Laterality.RIGHT, radius, height, seen),
            Openings.surface(DISC, 0.02, rough));
    RimProfile left =
        RimMeter.measure(
            DiscOpening.of(mirror, Laterality.LEFT, radius, height, seen),
            Openings.surface(mirror, 0.02, (x, y) -> rough.micrometres(-x, y)));

    for (int i = 0; i < 72; i++) {
      assertEquals(right.widthUm(i), left.widthUm(i));
      assertTrue(right.widthUm(i) > 0);
    }
  }

  private static RimProfile measure(Laterality eye, double endUm, Surface surface) {
    DiscOpening opening = Openings.of(DISC, eye, d -> R, d -> endUm);
    return RimMeter.measure(opening, Openings.surface(DISC, 0.02, surface));
  }

  private static double mean(RimTable table, String arc) {
    return assertInstanceOf(ArcMean.class, table.arc(arc).orElseThrow()).meanUm();
  }
}
