package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.OcularMagnification;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.testing.Paths;
import org.isopach.analysis.testing.Scans;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Expected profiles are functions of the anatomical angle. Linear interpolation over a step h
 * misses a sinusoid of amplitude A and k periods by at most A (k h)² / 8: 0.0021 µm for 768 A-scans
 * and those of {@link Circles#sinusoid}; single precision of depths adds 3e-5 µm.
 */
class CircleSamplerTest {
  private static final FundusPoint DISC = new FundusPoint(5.5, 3.25);
  private static final double RADIUS = 1.73;
  private static final double LINEAR = 0.0025;

  @ParameterizedTest
  @CsvSource({
    "R, 0, 1",
    "R, 180, 1",
    "R, 33.3, -1",
    "R, 250, -1",
    "L, 0, 1",
    "L, 180, -1",
    "L, 71.7, 1",
    "L, -90, -1"
  })
  void knowsStartAndDirectionByThePlaces(String code, double start, int way) {
    Laterality eye = Laterality.ofCode(code).orElseThrow();
    ScanPath path = Circles.whole(DISC, RADIUS, start, way, 768);

    CircleProfile profile = read(path, eye, AngleZero.HORIZONTAL);

    assertEquals(768, profile.samples());
    for (int i = 0; i < profile.samples(); i++) {
      assertEquals(Circles.sinusoid(i * 360.0 / 768), profile.thicknessUm(i), LINEAR);
    }
    assertEquals(3.46, profile.diameterMm(), 1e-12);
    assertEquals(0, profile.centre().distanceMm(DISC), 1e-12);
    assertEquals(ProfileSource.CIRCLE_SCAN, profile.source());
    assertEquals(1.0, profile.coveredFraction());
  }

  @ParameterizedTest
  @CsvSource({"256, 0.019", "1536, 0.0006", "1001, 0.0013"})
  void takesAnyNumberOfAscans(int ascans, double tolerance) {
    ScanPath path = Circles.whole(DISC, 1.7, 12, 1, ascans);

    CircleProfile profile = read(path, Laterality.LEFT, AngleZero.HORIZONTAL);

    for (int i = 0; i < profile.samples(); i++) {
      assertEquals(Circles.sinusoid(i * 360.0 / 768), profile.thicknessUm(i), tolerance);
    }
    assertEquals(3.4, profile.diameterMm(), 1e-12);
  }

  @Test
  void leavesOutWhatIsPastAFullTurn() {
    ScanPath repeated = Circles.arc(DISC, RADIUS, 20, 360, 769);
    ScanPath beyond = Circles.arc(DISC, RADIUS, 20, -361, 771);

    for (ScanPath path : new ScanPath[] {repeated, beyond}) {
      CircleProfile profile = read(path, Laterality.RIGHT, AngleZero.HORIZONTAL);
      for (int i = 0; i < profile.samples(); i++) {
        assertEquals(Circles.sinusoid(i * 360.0 / 768), profile.thicknessUm(i), LINEAR);
      }
    }
  }

  /** A path's diameter after the correction is 3.46 mm times 1.09017 (26 mm against 24 mm). */
  @Test
  void statesTheDiameterOfTheCorrectedPath() {
    ScanPath path =
        new OcularMagnification(26)
            .rescale(Circles.whole(DISC, RADIUS, 0, 1, 768), new OcularMagnification(24));

    CircleProfile profile = read(path, Laterality.RIGHT, AngleZero.HORIZONTAL);

    assertEquals(3.77199, profile.diameterMm(), 5e-5);
  }

  @Test
  void countsFromTheFoveaDiscLineWhenAsked() {
    ScanPath path = Circles.whole(DISC, RADIUS, 0, 1, 768);
    AngleZero zero = AngleZero.foveaDiscLine(7.03125);

    CircleProfile level = read(path, Laterality.RIGHT, AngleZero.HORIZONTAL);
    CircleProfile turned = read(path, Laterality.RIGHT, zero);
    CircleProfile shifted = level.rotatedTo(zero);
    CircleProfile back = shifted.rotatedTo(AngleZero.HORIZONTAL);

    assertEquals(zero, shifted.zero());
    for (int i = 0; i < 768; i++) {
      assertEquals(Circles.sinusoid(i * 360.0 / 768 - 7.03125), turned.thicknessUm(i), LINEAR);
      // 7.03125 degrees are 15 samples, so that nothing is smoothed.
      assertEquals(level.thicknessUm(Math.floorMod(i - 15, 768)), shifted.thicknessUm(i));
      assertEquals(turned.thicknessUm(i), shifted.thicknessUm(i), LINEAR);
      assertEquals(level.thicknessUm(i), back.thicknessUm(i));
    }
  }

  @Test
  void shiftsByPartsOfASampleLinearly() {
    CircleProfile level = Circles.profile(Circles::sinusoid);

    CircleProfile shifted = level.rotatedTo(AngleZero.foveaDiscLine(-3.3));

    for (int i = 0; i < 768; i++) {
      assertEquals(Circles.sinusoid(i * 360.0 / 768 + 3.3), shifted.thicknessUm(i), LINEAR);
    }
  }

  @Test
  void averagesTheFramesThatHaveAValue() {
    ScanPath one = Circles.whole(DISC, RADIUS, 0, 1, 720);
    ScanPath path = Circles.frames(one, Circles.whole(DISC, RADIUS, 180, -1, 720));
    float[] depth = new float[2 * 720];
    float[] confidence = new float[2 * 720];
    Arrays.fill(confidence, 1);
    Arrays.fill(depth, 0, 720, 64 + 20);
    Arrays.fill(depth, 720, 1440, 64 + 30);
    Arrays.fill(depth, 0, 91, Float.NaN);

    CircleProfile profile = read(path, Scans.boundaries(path, depth, confidence));

    // The first frame runs from nasal over inferior (right eye, clockwise): 180 to 270 is missing.
    double um = Scans.MICROMETRES_PER_PIXEL;
    assertEquals(25 * um, profile.atUm(90), 1e-9);
    assertEquals(30 * um, profile.atUm(200), 1e-9);
    assertEquals(30 * um, profile.atUm(224), 1e-9);
    assertEquals(25 * um, profile.atUm(227), 1e-9);
    assertEquals(1.0, profile.coveredFraction());
  }

  @Test
  void bridgesNothing() {
    ScanPath path = Circles.whole(DISC, RADIUS, 180, 1, 768);
    float[] depth = new float[768];
    float[] confidence = new float[768];
    Arrays.fill(depth, 90);
    Arrays.fill(confidence, 1);
    depth[100] = Float.NaN;
    confidence[300] = 0.29f;
    confidence[301] = 0.30f;

    CircleProfile profile = read(path, Scans.boundaries(path, depth, confidence));

    // In a right eye, from temporal and clockwise, A-scan a is sample a.
    for (int i = 0; i < 768; i++) {
      double degrees = i * 360.0 / 768;
      boolean beside = (i >= 99 && i < 101) || (i >= 299 && i < 301);
      assertEquals(beside, Double.isNaN(profile.atUm(degrees + 0.2)), "after sample " + i);
    }
    assertTrue(profile.coveredFraction() >= 764.0 / 768);
  }

  @Test
  void doesNotInterpolateBetweenAscansThatAreTooFarApart() {
    assertEquals(
        1.0,
        read(Circles.whole(DISC, RADIUS, 0, 1, 121), Laterality.RIGHT, AngleZero.HORIZONTAL)
            .coveredFraction());
    assertTrue(
        read(Circles.whole(DISC, RADIUS, 0, 1, 118), Laterality.RIGHT, AngleZero.HORIZONTAL)
                .coveredFraction()
            < 0.02);
  }

  @Test
  void givesMirroredScansOneProfileToTheLastBit() {
    ScanPath path = Paths.jittered(Circles.whole(DISC, RADIUS, 41, 1, 500), 0.0005, 3);
    Random random = new Random(4);
    float[] depth = new float[500];
    float[] confidence = new float[500];
    for (int a = 0; a < 500; a++) {
      depth[a] = a % 61 == 0 ? Float.NaN : 80 + 30 * random.nextFloat();
      confidence[a] = 1;
    }
    AngleZero zero = AngleZero.foveaDiscLine(6.1);
    BoundarySet boundaries = Scans.boundaries(path, depth, confidence);

    CircleProfile right = read(path, boundaries, Laterality.RIGHT, zero);
    CircleProfile left = read(Paths.mirrored(path), boundaries, Laterality.LEFT, zero);

    assertEquals(right.diameterMm(), left.diameterMm());
    for (int i = 0; i < 768; i++) {
      assertEquals(right.thicknessUm(i), left.thicknessUm(i));
    }
  }

  @ParameterizedTest
  @CsvSource({"350, 768", "358.8, 768", "180, 500", "-355, 1000"})
  void refusesATruncatedCircle(double turn, int ascans) {
    NoCircle refused = refusal(Circles.arc(DISC, RADIUS, 10, turn, ascans));

    assertEquals(NoCircle.Reason.TRUNCATED, refused.reason());
    assertEquals(
        String.format(Locale.ROOT, "frame 0: the A-scans span %.1f degrees of 360", Math.abs(turn)),
        refused.detail());
  }

  @Test
  void refusesWhatIsNotRound() {
    double whole = 360.0 * 767 / 768;
    ScanPath flat = Circles.ellipse(DISC, 1.6, 1.8, 0, whole, 768);
    ScanPath line = Paths.raster(new double[] {0}, 512, 6, 0, DISC);
    ScanPath zigzag = Paths.jittered(Circles.whole(DISC, RADIUS, 0, 1, 768), 0.02, 9);

    assertEquals(NoCircle.Reason.NOT_ROUND, refusal(flat).reason());
    assertEquals(NoCircle.Reason.NOT_ROUND, refusal(line).reason());
    assertEquals("frame 0: the A-scans turn back along the circle", refusal(zigzag).detail());
    assertInstanceOf(
        CircleProfile.class, attempt(Circles.ellipse(DISC, 1.70, 1.75, 0, whole, 768)));
  }

  @Test
  void refusesFramesOfDifferentCircles() {
    ScanPath one = Circles.whole(DISC, RADIUS, 0, 1, 768);
    ScanPath wider = Circles.whole(DISC, 2.05, 0, 1, 768);
    ScanPath beside = Circles.whole(DISC.plus(new FundusPoint(0.1, 0)), RADIUS, 0, 1, 768);

    NoCircle refused = refusal(Circles.frames(one, wider));

    assertEquals(NoCircle.Reason.FRAMES_DIFFER, refused.reason());
    assertEquals(
        "frame 1 is a circle of 4.100 mm, its centre 0.000 mm from that of frame 0, of 3.460 mm",
        refused.detail());
    assertEquals(NoCircle.Reason.FRAMES_DIFFER, refusal(Circles.frames(one, one, beside)).reason());
  }

  @Test
  void refusesAnUnknownEyeAndALayerThatWasNotSearched() {
    ScanPath path = Circles.whole(DISC, RADIUS, 0, 1, 768);
    BoundarySet boundaries = Scans.boundaries(path, (x, y) -> 100);

    CircleResult unknown =
        CircleSampler.ofCircleScan(
            Scans.scan(path, Optional.empty()),
            path,
            boundaries,
            Layer.ILM_BM,
            0.3,
            AngleZero.HORIZONTAL);
    CircleResult unsearched =
        CircleSampler.ofCircleScan(
            Scans.scan(path, Optional.of(Laterality.LEFT)),
            path,
            boundaries,
            new Layer(Boundary.ILM, Boundary.RNFL_GCL),
            0.3,
            AngleZero.HORIZONTAL);

    assertEquals(NoCircle.Reason.NO_LATERALITY, assertInstanceOf(NoCircle.class, unknown).reason());
    assertEquals(
        NoCircle.Reason.LAYER_NOT_SEARCHED, assertInstanceOf(NoCircle.class, unsearched).reason());
    ScanPath shorter = Circles.whole(DISC, RADIUS, 0, 1, 512);
    assertThrows(IllegalArgumentException.class, () -> read(shorter, boundaries));
  }

  private static CircleProfile read(ScanPath path, Laterality eye, AngleZero zero) {
    FundusPoint middle = path.middle();
    BoundarySet boundaries =
        Scans.boundaries(path, Circles.byAngle(middle, eye, Circles::sinusoid));
    return read(path, boundaries, eye, zero);
  }

  private static CircleProfile read(ScanPath path, BoundarySet boundaries) {
    return read(path, boundaries, Laterality.RIGHT, AngleZero.HORIZONTAL);
  }

  private static CircleProfile read(
      ScanPath path, BoundarySet boundaries, Laterality eye, AngleZero zero) {
    return assertInstanceOf(
        CircleProfile.class,
        CircleSampler.ofCircleScan(
            Scans.scan(path, Optional.of(eye)), path, boundaries, Layer.ILM_BM, 0.3, zero));
  }

  private static CircleResult attempt(ScanPath path) {
    return CircleSampler.ofCircleScan(
        Scans.scan(path, Optional.of(Laterality.RIGHT)),
        path,
        Scans.boundaries(path, (x, y) -> 100),
        Layer.ILM_BM,
        0.3,
        AngleZero.HORIZONTAL);
  }

  private static NoCircle refusal(ScanPath path) {
    return assertInstanceOf(NoCircle.class, attempt(path));
  }
}
