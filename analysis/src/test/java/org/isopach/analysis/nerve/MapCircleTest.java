package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.testing.Scans;
import org.isopach.analysis.testing.Surface;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A bilinear surface goes through planes exactly; maps hold single precision, 8e-6 µm at 130 µm.
 */
class MapCircleTest {
  private static final MapLattice LATTICE = MapLattice.centred(2.2, 0.02);

  @ParameterizedTest
  @EnumSource(Laterality.class)
  void readsAPlane(Laterality eye) {
    double nasalSign = eye == Laterality.RIGHT ? 1 : -1;
    ThicknessMap map = Scans.map(LATTICE, eye, (x, y) -> 100 + 7 * nasalSign * x - 11 * y);
    AngleZero zero = AngleZero.foveaDiscLine(5);

    CircleProfile level = CircleSampler.ofMap(map, 3.46, AngleZero.HORIZONTAL);
    CircleProfile turned = CircleSampler.ofMap(map, 3.4, zero);

    for (int i = 0; i < 768; i++) {
      double angle = Math.toRadians(i * 360.0 / 768);
      double back = Math.toRadians(i * 360.0 / 768 - 5);
      double expected = 100 - 7 * 1.73 * Math.cos(angle) + 11 * 1.73 * Math.sin(angle);
      assertEquals(expected, level.thicknessUm(i), 2e-5);
      assertEquals(
          100 - 7 * 1.7 * Math.cos(back) + 11 * 1.7 * Math.sin(back), turned.thicknessUm(i), 2e-5);
    }
    assertEquals(ProfileSource.RESAMPLED, level.source());
    assertEquals(3.46, level.diameterMm());
    assertEquals(zero, turned.zero());
  }

  /** A bar of the circle from a volume against the circle scan: 2 µm; here nothing is noisy. */
  @ParameterizedTest
  @EnumSource(Laterality.class)
  void agreesWithAScanAlongTheCircle(Laterality eye) {
    FundusPoint disc = new FundusPoint(0, 0);
    Surface surface =
        (x, y) ->
            Circles.byAngle(disc, eye, Circles::sinusoid).micrometres(x, y)
                * (1 - 0.3 * (Math.hypot(x, y) - 1.73));
    ScanPath path = Circles.whole(disc, 1.73, 77, 1, 768);
    CircleProfile scanned =
        assertInstanceOf(
            CircleProfile.class,
            CircleSampler.ofCircleScan(
                Scans.scan(path, Optional.of(eye)),
                path,
                Scans.boundaries(path, surface),
                Layer.ILM_BM,
                0.3,
                AngleZero.HORIZONTAL));

    CircleProfile resampled =
        CircleSampler.ofMap(Scans.map(LATTICE, eye, surface), 3.46, AngleZero.HORIZONTAL);

    for (int i = 0; i < 768; i++) {
      assertEquals(scanned.thicknessUm(i), resampled.thicknessUm(i), 0.01);
    }
  }

  @Test
  void hasNoValueBesideAMissingCell() {
    ThicknessMap map =
        Scans.map(LATTICE, Laterality.RIGHT, (x, y) -> x < 0 && y < 0 ? Double.NaN : 100);

    CircleProfile profile = CircleSampler.ofMap(map, 3.46, AngleZero.HORIZONTAL);

    // The upper temporal quarter is missing: 0 to 90 degrees of a right eye.
    assertTrue(Double.isNaN(profile.thicknessUm(1)));
    assertTrue(Double.isNaN(profile.thicknessUm(96)));
    assertEquals(100, profile.thicknessUm(0));
    assertEquals(100, profile.thicknessUm(192));
    assertTrue(Double.isNaN(profile.thicknessUm(191)));
    assertEquals((768 - 191) / 768.0, profile.coveredFraction());
  }

  @Test
  void hasNoValueBeyondTheMap() {
    ThicknessMap map = Scans.map(MapLattice.centred(1.5, 0.02), Laterality.LEFT, (x, y) -> 100);

    CircleProfile profile = CircleSampler.ofMap(map, 3.46, AngleZero.HORIZONTAL);

    assertTrue(Double.isNaN(profile.atUm(0)));
    assertEquals(100, profile.atUm(45), 1e-12);
  }

  @Test
  void givesMirroredMapsOneProfileToTheLastBit() {
    Random random = new Random(8);
    for (MapLattice lattice :
        new MapLattice[] {LATTICE, new MapLattice(200, 190, 0.02, -189 * 0.01, -1.99)}) {
      ThicknessMap right =
          Scans.map(
              lattice,
              Laterality.RIGHT,
              (x, y) -> random.nextInt(40) == 0 ? Double.NaN : 60 + 80 * random.nextDouble());
      AngleZero zero = AngleZero.foveaDiscLine(6.9);

      CircleProfile one = CircleSampler.ofMap(right, 3.3, zero);
      CircleProfile other = CircleSampler.ofMap(Scans.mirrored(right), 3.3, zero);

      for (int i = 0; i < 768; i++) {
        assertEquals(one.thicknessUm(i), other.thicknessUm(i));
      }
    }
  }

  @Test
  void readsHeightsAnywhereOnALattice() {
    MapLattice lattice = new MapLattice(5, 8, 0.25, 0.5, -1);
    float[] heights = new float[lattice.cells()];
    for (int i = 0; i < heights.length; i++) {
      heights[i] = (float) (40 * lattice.xMm(i % 8) - 16 * lattice.yMm(i / 8));
    }
    heights[0] = Float.NaN;
    HeightMap map = new HeightMap(lattice, new FundusPoint(3, 4), heights);
    Random random = new Random(2);

    for (int i = 0; i < 300; i++) {
      double x = 0.75 + 1.5 * random.nextDouble();
      double y = -1 + random.nextDouble();
      assertEquals(40 * x - 16 * y, map.atUm(new FundusPoint(3 + x, 4 + y)), 1e-4);
    }
    assertTrue(Double.isNaN(map.atUm(new FundusPoint(3.6, 3.1))), "beside the missing cell");
    assertEquals(46, map.atUm(new FundusPoint(3.75, 3)), 1e-4, "on the next cell's centre");
    assertEquals(90, map.atUm(new FundusPoint(5.25, 4)), 1e-4, "on the last cell's centre");
    assertTrue(Double.isNaN(map.atUm(new FundusPoint(5.26, 4))), "beyond it");
    assertTrue(Double.isNaN(map.atUm(new FundusPoint(4, 2.99))), "above the first row");
  }
}
