package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.OpticDisc;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DiscAngleTest {
  private static final FundusPoint CENTRE = new FundusPoint(4.5, 3.25);

  /** The nose lies to the right of a right eye's picture (DICOM PS3.17, annex UU.5); y is down. */
  @ParameterizedTest
  @CsvSource({
    "R, -1, 0, 0", "R, 0, -1, 90", "R, 1, 0, 180", "R, 0, 1, 270", "R, -1, -1, 45", "R, -1, 1, 315",
    "L, 1, 0, 0", "L, 0, -1, 90", "L, -1, 0, 180", "L, 0, 1, 270", "L, 1, -1, 45", "L, -1, 1, 225"
  })
  void countsFromTemporalOverSuperior(String eye, double x, double y, double expected) {
    Laterality laterality = Laterality.ofCode(eye).orElseThrow();

    double found = DiscAngle.ofDegrees(CENTRE.plus(new FundusPoint(x, y)), CENTRE, laterality);

    assertEquals(expected, found, 1e-12);
  }

  @Test
  void findsThePlaceOfAnAngle() {
    Random random = new Random(5);
    for (int i = 0; i < 500; i++) {
      Laterality eye = i % 2 == 0 ? Laterality.RIGHT : Laterality.LEFT;
      double degrees = 360 * random.nextDouble();
      double radius = 0.1 + 3 * random.nextDouble();

      FundusPoint place = DiscAngle.place(CENTRE, radius, degrees, eye);

      assertEquals(radius, place.distanceMm(CENTRE), 1e-12);
      assertEquals(0, DiscAngle.signed(DiscAngle.ofDegrees(place, CENTRE, eye) - degrees), 1e-10);
    }
  }

  @Test
  void givesMirroredPlacesOneAngleToTheLastBit() {
    Random random = new Random(6);
    for (int i = 0; i < 500; i++) {
      FundusPoint point = new FundusPoint(random.nextGaussian(), random.nextGaussian());
      FundusPoint mirror = new FundusPoint(-point.xMm(), point.yMm());
      FundusPoint otherCentre = new FundusPoint(-CENTRE.xMm(), CENTRE.yMm());

      assertEquals(
          DiscAngle.ofDegrees(point, CENTRE, Laterality.RIGHT),
          DiscAngle.ofDegrees(mirror, otherCentre, Laterality.LEFT));
      FundusPoint right = DiscAngle.place(CENTRE, 1.73, 100 * i, Laterality.RIGHT);
      FundusPoint left = DiscAngle.place(otherCentre, 1.73, 100 * i, Laterality.LEFT);
      assertEquals(new FundusPoint(-right.xMm(), right.yMm()), left);
    }
  }

  @ParameterizedTest
  @CsvSource({"0, 0", "360, 0", "-0.0, 0", "-90, 270", "725, 5", "-1e-18, 0", "359.5, 359.5"})
  void keepsAnglesWithinOneTurn(double degrees, double expected) {
    assertEquals(expected, DiscAngle.normal(degrees));
  }

  /**
   * The disc's centre lies 15.5 degrees nasal and 1.9 above the fovea (Garway-Heath et al.,
   * Ophthalmology 2000;107:1809, abstract), so that their line rises by atan(1.9 / 15.5) = 6.9885
   * degrees: the fovea is seen from the disc at 353 degrees, which becomes 0.
   */
  @ParameterizedTest
  @CsvSource({"R, 1", "L, -1"})
  void turnsTheZeroToTheFovea(String code, int sign) {
    Laterality eye = Laterality.ofCode(code).orElseThrow();
    FundusPoint fovea = new FundusPoint(1, 2);
    FundusPoint disc = fovea.plus(new FundusPoint(sign * 15.5 * 0.29, -1.9 * 0.29));

    AngleZero zero = AngleZero.foveaDiscLine(fovea, disc, eye);

    assertEquals(6.9885, zero.foveaDiscDegrees(), 5e-5);
    assertEquals(
        new OpticDisc(disc, 2, true).angleDegrees(fovea, eye).orElseThrow(),
        zero.foveaDiscDegrees(),
        1e-10);
    double seen = DiscAngle.ofDegrees(fovea, disc, eye);
    assertEquals(353.0115, seen, 5e-5);
    assertEquals(0, DiscAngle.signed(zero.ofHorizontal(seen)), 1e-10);
    assertEquals(seen, zero.toHorizontal(0), 1e-10);
  }

  @Test
  void refusesAnglesNoEyeHas() {
    assertThrows(IllegalArgumentException.class, () -> AngleZero.foveaDiscLine(46));
    assertThrows(IllegalArgumentException.class, () -> AngleZero.foveaDiscLine(Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> new AngleZero(AngleZero.Kind.HORIZONTAL, 7));
  }
}
