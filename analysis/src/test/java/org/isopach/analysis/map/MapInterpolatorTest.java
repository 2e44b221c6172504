package org.isopach.analysis.map;

import static org.isopach.analysis.testing.Scans.pit;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.testing.Paths;
import org.isopach.analysis.testing.Scans;
import org.isopach.analysis.testing.Surface;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class MapInterpolatorTest {
  /** Depths and maps are single precision: 2e-5 µm each near 300 µm. */
  private static final double SINGLE_PRECISION_UM = 1e-4;

  private static final FundusPoint MIDDLE = new FundusPoint(4.5, 4.25);
  private static final MapLattice FINE = MapLattice.centred(3.0, 0.02);
  private static final MapLattice COARSE = MapLattice.centred(3.0, 0.1);
  private static final Surface PLANE = (x, y) -> 300 + 10 * (x - 4.5) - 7 * (y - 4.25);

  @ParameterizedTest
  @ValueSource(doubles = {0, 90, 180, 270, 37, -112.5})
  void reproducesAPlaneOnARasterInAnyOrientation(double degrees) {
    ScanPath path = Paths.raster(Paths.even(49, 6), 512, 6, degrees, MIDDLE);

    ThicknessMap map = interpolate(path, PLANE, FINE);

    // Two squares turned by 45 degrees against each other share 2 (sqrt 2 - 1) of their area.
    assertPlane(map, degrees % 90 == 0 ? 1 : 0.825);
  }

  @Test
  void reproducesAPlaneOnUnevenShuffledFrames() {
    double[] offsets = {
      -3, -2.9, -2.55, -2.5, -2.2, -1.9, -1.6, -1.55, -1.3, -1, -0.9, -0.6, -0.3, -0.25, 0.1, 0.12,
      0.4, 0.75, 1, 1.3, 1.6, 1.62, 1.9, 2.25, 2.6, 2.8, 3
    };
    ScanPath sorted = Paths.raster(offsets, 97, 6, 20, MIDDLE);
    ScanPath shuffled = Paths.reordered(sorted, Paths.shuffled(offsets.length, 5));

    ThicknessMap map = interpolate(shuffled, PLANE, COARSE);

    assertPlane(map, 0.82);
    assertSame(interpolate(sorted, PLANE, COARSE), map);
  }

  @Test
  void readsFramesInDescendingOrderAlike() {
    ScanPath path = Paths.raster(Paths.even(25, 6), 128, 6, 37, MIDDLE);
    List<Integer> backwards = new ArrayList<>();
    for (int f = 24; f >= 0; f--) {
      backwards.add(f);
    }
    Surface bumpy = (x, y) -> 300 + 40 * Math.sin(2 * x) * Math.cos(3 * y);

    assertSame(
        interpolate(path, bumpy, COARSE),
        interpolate(Paths.reordered(path, backwards), bumpy, COARSE));
  }

  @Test
  void reproducesAPlaneOnAJitteredPath() {
    ScanPath path = Paths.jittered(Paths.raster(Paths.even(33, 6), 65, 6, 37, MIDDLE), 0.03, 11);

    assertPlane(interpolate(path, PLANE, FINE), 0.8);
  }

  @ParameterizedTest
  @CsvSource({"12, 128", "12, 129", "6, 64", "2, 65"})
  void reproducesAPlaneOnRadialFrames(int frames, int ascans) {
    ScanPath path = Paths.radial(frames, ascans, 1.4, MIDDLE);
    assertEquals(ScanPattern.RADIAL, path.pattern());

    ThicknessMap map =
        interpolator(4)
            .interpolate(
                scan(path), path, Scans.boundaries(path, PLANE), Layer.ILM_BM, centre(), COARSE);

    double sides = 2.0 * frames;
    double polygon = sides / 2 * 1.4 * 1.4 * Math.sin(2 * Math.PI / sides);
    assertPlane(map, 0.97 * polygon / (COARSE.cells() * COARSE.cellAreaMm2()));
    int hub = (COARSE.rows() - 1) / 2;
    assertEquals(300, map.micrometres(hub, hub), SINGLE_PRECISION_UM);
  }

  @Test
  void takesRadialFramesOfEitherDirectionInAnyOrder() {
    ScanPath path = Paths.radial(12, 128, 1.4, MIDDLE);
    ScanPath shuffled = Paths.reordered(path, Paths.shuffled(12, 3));
    ScanPath turned = turned(shuffled, 4, 7, 11);
    Surface bumpy = (x, y) -> 300 + 40 * Math.sin(2 * x) * Math.cos(3 * y);

    assertSame(interpolate(path, bumpy, COARSE), interpolate(turned, bumpy, COARSE));
  }

  @Test
  void leavesRadialFramesOpenWhereTheyLieTooFarApart() {
    ScanPath path = Paths.radial(12, 512, 3, MIDDLE);

    ThicknessMap map = interpolate(path, PLANE, FINE);

    // Neighbours 15 degrees apart are 0.4 mm apart at 0.4 / (2 sin 7.5 deg) = 1.532 mm, and half
    // way between them the quadrilaterals reach to 1.532 cos 7.5 deg = 1.519 mm.
    for (int row = 0; row < FINE.rows(); row++) {
      for (int column = 0; column < FINE.columns(); column++) {
        double r = Math.hypot(FINE.xMm(column), FINE.yMm(row));
        boolean has = !Float.isNaN(map.micrometres(row, column));
        assertTrue(r > 1.50 ? r < 1.55 || !has : has, "at " + r + " mm: " + has);
      }
    }
  }

  @Test
  void agreesWithPlainEvaluationOfEveryTriangle() {
    Random random = new Random(42);
    for (int round = 0; round < 4; round++) {
      ScanPath path =
          Paths.jittered(Paths.raster(Paths.even(9, 2), 24, 2, 31 * round, MIDDLE), 0.02, round);
      float[] depths = new float[path.frames() * path.ascans()];
      for (int i = 0; i < depths.length; i++) {
        depths[i] = random.nextInt(20) == 0 ? Float.NaN : 100 + 50 * random.nextFloat();
      }
      BoundarySet boundaries = Scans.boundaries(path, depths, ones(depths.length));
      MapLattice lattice = MapLattice.centred(1.5, 0.02);

      ThicknessMap map =
          interpolator(InterpolationRules.DEFAULT.maximumGapMm())
              .interpolate(scan(path), path, boundaries, Layer.ILM_BM, centre(), lattice);

      PlainInterpolation plain = new PlainInterpolation(path, boundaries, centre().point());
      int covered = 0;
      for (int row = 0; row < lattice.rows(); row++) {
        for (int column = 0; column < lattice.columns(); column++) {
          double expected = plain.at(lattice.xMm(column), lattice.yMm(row));
          assertEquals(expected, map.micrometres(row, column), SINGLE_PRECISION_UM);
          covered += Double.isNaN(expected) ? 0 : 1;
        }
      }
      assertTrue(covered > 5000 && covered < lattice.cells() - 5000, "covered " + covered);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 37, 90})
  void mirrorsBitForBit(double degrees) {
    ScanPath path =
        Paths.jittered(
            Paths.raster(Paths.even(49, 6), 256, 6, degrees, new FundusPoint(0, 0)), 0.01, 8);
    ScanPath mirror = Paths.mirrored(path);
    BoundarySet rough = rough(path, 99);
    Landmark off = pit(0.137, -0.211);
    Landmark mirroredOff = pit(-0.137, -0.211);

    ThicknessMap map =
        interpolator(InterpolationRules.DEFAULT.maximumGapMm())
            .interpolate(scan(path), path, rough, Layer.ILM_BM, off, FINE);
    ThicknessMap other =
        interpolator(InterpolationRules.DEFAULT.maximumGapMm())
            .interpolate(scan(mirror), mirror, rough, Layer.ILM_BM, mirroredOff, FINE);

    assertTrue(map.coveredFraction() > 0.75);
    assertMirror(map, other);
  }

  @ParameterizedTest
  @ValueSource(ints = {255, 256, 512})
  void mirrorsAFlippedVolumeBitForBit(int ascans) {
    ScanPath path = Paths.raster(Paths.even(25, 6), ascans, 6, 0, new FundusPoint(0, 0));
    BoundarySet rough = rough(path, 7);
    BoundarySet flipped = flipped(path, rough);

    ThicknessMap map =
        interpolator(InterpolationRules.DEFAULT.maximumGapMm())
            .interpolate(scan(path), path, rough, Layer.ILM_BM, pit(0, 0), FINE);
    ThicknessMap other =
        interpolator(InterpolationRules.DEFAULT.maximumGapMm())
            .interpolate(scan(path), path, flipped, Layer.ILM_BM, pit(0, 0), FINE);

    assertMirror(map, other);
  }

  @Test
  void staysWithinTheValuesAroundAndNeverLeavesTheScan() {
    ScanPath path = Paths.raster(Paths.even(17, 4), 64, 4, 0, MIDDLE);

    ThicknessMap map = interpolate(path, PLANE, FINE);

    for (int row = 0; row < FINE.rows(); row++) {
      for (int column = 0; column < FINE.columns(); column++) {
        double reach = Math.max(Math.abs(FINE.xMm(column)), Math.abs(FINE.yMm(row)));
        assertEquals(reach > 2 + 1e-9, Float.isNaN(map.micrometres(row, column)));
      }
    }
  }

  @Test
  void leavesAHoleOfTheQuadsRoundAMissingAscan() {
    ScanPath path = Paths.raster(Paths.even(61, 6), 61, 6, 0, MIDDLE);
    FundusPoint missing = path.point(30, 40);

    ThicknessMap map =
        interpolate(
            path, (x, y) -> x == missing.xMm() && y == missing.yMm() ? Double.NaN : 300, FINE);

    for (int row = 0; row < FINE.rows(); row++) {
      for (int column = 0; column < FINE.columns(); column++) {
        double away =
            Math.max(
                Math.abs(FINE.xMm(column) + MIDDLE.xMm() - missing.xMm()),
                Math.abs(FINE.yMm(row) + MIDDLE.yMm() - missing.yMm()));
        assertEquals(away < 0.1 - 1e-9, Float.isNaN(map.micrometres(row, column)), "at " + away);
      }
    }
  }

  @Test
  void leavesAscansOfLowConfidenceOut() {
    ScanPath path = Paths.raster(Paths.even(61, 6), 61, 6, 0, MIDDLE);
    float[] depths = new float[61 * 61];
    float[] confidence = new float[61 * 61];
    for (int i = 0; i < depths.length; i++) {
      depths[i] = 140;
      confidence[i] = i % 61 < 30 ? 0.04f : 0.06f;
    }

    ThicknessMap map =
        interpolator(InterpolationRules.DEFAULT.maximumGapMm())
            .interpolate(
                scan(path),
                path,
                Scans.boundaries(path, depths, confidence),
                Layer.ILM_BM,
                centre(),
                COARSE);

    assertTrue(Float.isNaN(map.micrometres(30, 29)));
    assertEquals(76 * 3.87, map.micrometres(30, 30), SINGLE_PRECISION_UM);
  }

  @ParameterizedTest
  @CsvSource({"16, 1", "15, 0"})
  void refusesGapsBeyondTheLimit(int framesOverSixMm, double covered) {
    ScanPath path = Paths.raster(Paths.even(framesOverSixMm, 6), 64, 6, 0, MIDDLE);

    assertEquals(covered, interpolate(path, PLANE, COARSE).coveredFraction());
  }

  @ParameterizedTest
  @CsvSource({"49, true", "31, true", "30, false"})
  void bridgesAFrameWithoutAnyThicknessIfTheGapAllows(int frames, boolean bridged) {
    double[] offsets = Paths.even(frames, 6);
    ScanPath path = Paths.raster(offsets, 64, 6, 0, MIDDLE);
    double dead = path.yMm(frames / 2, 0);

    ThicknessMap map =
        interpolate(
            path, (x, y) -> Math.abs(y - dead) < 1e-9 ? Double.NaN : PLANE.micrometres(x, y), FINE);

    assertEquals(bridged, map.coveredFraction() == 1.0, "covered " + map.coveredFraction());
    assertPlane(map, 0.9);
  }

  @Test
  void centresTheLatticeOnTheLandmark() {
    ScanPath path = Paths.raster(Paths.even(49, 6), 64, 6, 0, MIDDLE);

    ThicknessMap map =
        interpolator(InterpolationRules.DEFAULT.maximumGapMm())
            .interpolate(
                scan(path), path, Scans.boundaries(path, PLANE), Layer.ILM_BM, pit(5, 4), COARSE);

    assertEquals(300 + 10 * 0.5 + 7 * 0.25, map.micrometres(30, 30), SINGLE_PRECISION_UM);
    assertEquals(300 + 10 * 1.5 + 7 * 0.25, map.micrometres(30, 40), SINGLE_PRECISION_UM);
    assertEquals(300 + 10 * 0.5 - 7 * 0.75, map.micrometres(40, 30), SINGLE_PRECISION_UM);
  }

  @Test
  void refusesWhatCannotBeMapped() {
    ScanPath path = Paths.raster(Paths.even(4, 1), 16, 6, 0, MIDDLE);
    ScanPath line = Paths.raster(new double[] {0}, 16, 6, 0, MIDDLE);
    OctScan unknownEye = Scans.scan(path, Optional.empty());
    BoundarySet boundaries = Scans.boundaries(path, PLANE);

    assertRefused("laterality", unknownEye, path, boundaries, Layer.ILM_BM);
    assertRefused("ILM-RPE", scan(path), path, boundaries, Layer.ILM_RPE);
    assertRefused("single line", scan(line), line, Scans.boundaries(line, PLANE), Layer.ILM_BM);
    assertRefused("the path is for 1 x 16", scan(path), line, boundaries, Layer.ILM_BM);
    assertRefused("the boundaries are for 4 x 16", scan(line), line, boundaries, Layer.ILM_BM);
    assertFalse(MapInterpolator.canMap(line));
  }

  private static void assertRefused(
      String words, OctScan scan, ScanPath path, BoundarySet boundaries, Layer layer) {
    String message =
        assertThrows(
                IllegalArgumentException.class,
                () ->
                    interpolator(InterpolationRules.DEFAULT.maximumGapMm())
                        .interpolate(scan, path, boundaries, layer, centre(), COARSE))
            .getMessage();
    assertTrue(message.contains(words), message);
  }

  private static ThicknessMap interpolate(ScanPath path, Surface surface, MapLattice lattice) {
    return interpolator(InterpolationRules.DEFAULT.maximumGapMm())
        .interpolate(
            scan(path), path, Scans.boundaries(path, surface), Layer.ILM_BM, centre(), lattice);
  }

  private static MapInterpolator interpolator(double maximumGapMm) {
    return new MapInterpolator(new InterpolationRules(0.05, maximumGapMm));
  }

  private static OctScan scan(ScanPath path) {
    return Scans.scan(path, Optional.of(Laterality.RIGHT));
  }

  private static Landmark centre() {
    return pit(MIDDLE.xMm(), MIDDLE.yMm());
  }

  private static void assertPlane(ThicknessMap map, double leastCovered) {
    MapLattice lattice = map.lattice();
    assertTrue(map.coveredFraction() >= leastCovered, "covered " + map.coveredFraction());
    assertTrue(map.coveredFraction() > 0.05, "covered " + map.coveredFraction());
    for (int row = 0; row < lattice.rows(); row++) {
      for (int column = 0; column < lattice.columns(); column++) {
        float value = map.micrometres(row, column);
        double expected = 300 + 10 * lattice.xMm(column) - 7 * lattice.yMm(row);
        if (!Float.isNaN(value)) {
          assertEquals(expected, value, SINGLE_PRECISION_UM, "row " + row + ", column " + column);
        }
      }
    }
  }

  private static void assertSame(ThicknessMap expected, ThicknessMap actual) {
    for (int row = 0; row < expected.lattice().rows(); row++) {
      for (int column = 0; column < expected.lattice().columns(); column++) {
        assertEquals(
            expected.micrometres(row, column),
            actual.micrometres(row, column),
            "row " + row + ", column " + column);
      }
    }
  }

  private static void assertMirror(ThicknessMap map, ThicknessMap other) {
    assertSame(map, Scans.mirrored(other));
  }

  private static BoundarySet rough(ScanPath path, long seed) {
    Random random = new Random(seed);
    return Scans.boundaries(
        path, (x, y) -> random.nextInt(200) == 0 ? Double.NaN : 250 + 100 * random.nextDouble());
  }

  private static BoundarySet flipped(ScanPath path, BoundarySet set) {
    float[] depths = new float[path.frames() * path.ascans()];
    for (int i = 0; i < depths.length; i++) {
      depths[i] =
          set.surface(Layer.ILM_BM.outer())
              .orElseThrow()
              .depthPx(i / path.ascans(), path.ascans() - 1 - i % path.ascans());
    }
    return Scans.boundaries(path, depths, ones(depths.length));
  }

  private static ScanPath turned(ScanPath path, int... frames) {
    double[] x = new double[path.frames() * path.ascans()];
    double[] y = new double[path.frames() * path.ascans()];
    List<Integer> turn = Arrays.stream(frames).boxed().toList();
    for (int i = 0; i < x.length; i++) {
      int f = i / path.ascans();
      int a = i % path.ascans();
      FundusPoint at = path.point(f, turn.contains(f) ? path.ascans() - 1 - a : a);
      x[i] = at.xMm();
      y[i] = at.yMm();
    }
    return ScanPath.ofPoints(path.frames(), path.ascans(), x, y, path.frame());
  }

  private static float[] ones(int count) {
    float[] ones = new float[count];
    Arrays.fill(ones, 1);
    return ones;
  }
}
