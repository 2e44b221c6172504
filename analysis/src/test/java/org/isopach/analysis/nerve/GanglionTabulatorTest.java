package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.testing.Scans;
import org.isopach.analysis.testing.Surface;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Expected values are closed forms over the ellipses. */
class GanglionTabulatorTest {
  private static final MapLattice LATTICE = MapLattice.centred(3.0, 0.02);
  private static final GanglionGrid GRID = GanglionGrid.STANDARD;
  private static final double AREA = Math.PI * (2.4 * 2.0 - 0.6 * 0.5);

  private static final GanglionTabulator TABULATOR = new GanglionTabulator();

  @Test
  void knowsTheAreasOfEllipses() {
    assertEquals(AREA, GRID.areaMm2(0, 360), 1e-12);
    assertEquals(14.137167, GRID.areaMm2(0, 360), 5e-7);
    assertEquals(AREA / 4, GRID.areaMm2(0, 90), 1e-12);
    assertEquals(AREA / 4, GRID.areaMm2(270, 360), 1e-12);
    assertEquals(AREA / 2, GRID.areaMm2(-90, 90), 1e-12);
    // A sector of the ellipse a, b up to the angle t is (a b / 2) atan(a tan t / b).
    double outer = 2.4 * Math.atan(1.2 * Math.tan(Math.toRadians(60)));
    double inner = 0.15 * Math.atan(1.2 * Math.tan(Math.toRadians(60)));
    assertEquals(outer - inner, GRID.areaMm2(0, 60), 1e-12);
  }

  @ParameterizedTest
  @EnumSource(Laterality.class)
  void findsASlabTheSameEverywhere(Laterality eye) {
    GanglionTable table = level(eye, (x, y) -> 82);

    double area = 0;
    for (SectorResult sector : table.sectors()) {
      Measured measured = assertInstanceOf(Measured.class, sector);
      assertEquals(82, measured.meanUm(), 1e-9);
      assertEquals(1.0, measured.coveredFraction());
      area += measured.areaMm2();
    }
    assertEquals(AREA, area, 1e-9);
    assertEquals(GanglionGrid.SECTORS, table.sectors().stream().map(SectorResult::sector).toList());
    assertEquals(82, mean(table.annulus()), 1e-9);
    assertEquals(AREA, table.annulus().areaMm2(), 1e-9);
    assertEquals(82, mean(table.minimum()), 1e-9);
    assertEquals(0, difference(table.halves()).differenceUm(), 1e-9);
    assertEquals(0, difference(table.mirrored()).differenceUm(), 1e-9);
  }

  @Test
  void weighsCellsWithTheirAreaInASector() {
    AnnulusWeights weights =
        AnnulusWeights.of(GRID, LATTICE, Laterality.RIGHT, AngleZero.HORIZONTAL);
    for (int sector = 0; sector < 6; sector++) {
      double sum = 0;
      for (int i = weights.start(15 * sector); i < weights.start(15 * sector + 15); i++) {
        sum += weights.areaMm2(i);
      }
      double exact = GRID.areaMm2(60.0 * sector, 60.0 * sector + 60);
      assertEquals(exact, sum, 0.001 * exact);
    }
  }

  /** Names are anatomical; the nose is to the right of a right eye's picture. */
  @ParameterizedTest
  @CsvSource({
    "R, -1.3, -0.7, superotemporal", "R, 0, -1.5, superior", "R, 1.3, -0.7, superonasal",
    "R, 1.3, 0.7, inferonasal", "R, 0, 1.5, inferior", "R, -1.3, 0.7, inferotemporal",
    "L, 1.3, -0.7, superotemporal", "L, -1.3, -0.7, superonasal", "L, -1.3, 0.7, inferonasal",
    "L, 1.3, 0.7, inferotemporal"
  })
  void namesSectorsByAnatomy(String code, double x, double y, String name) {
    GanglionTable table =
        level(
            Laterality.ofCode(code).orElseThrow(),
            (a, b) -> Math.hypot(a - x, b - y) < 0.3 ? 20 : 80);

    List<String> thinned =
        table.sectors().stream().filter(s -> mean(s) < 79).map(SectorResult::sector).toList();

    assertEquals(List.of(name), thinned);
  }

  /**
   * A slope of s µm per mm upwards: above the midline its mean is s times the centroid, (2/3)(a b²
   * - a' b'²) / (pi/2 (a b - a' b')) = 0.889... mm, below the negative of that.
   */
  @ParameterizedTest
  @EnumSource(Laterality.class)
  void comparesTheHalves(Laterality eye) {
    double centroid = 2.0 / 3 * (2.4 * 4 - 0.6 * 0.25) / (AREA / 2);

    GanglionTable table = level(eye, (x, y) -> 80 - 10 * y + 3 * x);

    MidlineDifference halves = difference(table.halves());
    assertEquals(80 + 10 * centroid, halves.superiorUm(), 0.005);
    assertEquals(80 - 10 * centroid, halves.inferiorUm(), 0.005);
    assertEquals(20 * centroid, difference(table.mirrored()).differenceUm(), 0.01);
    assertEquals(80, mean(table.annulus()), 1e-6);
  }

  /** The same slope turned with the line from fovea to disc gives the same halves. */
  @ParameterizedTest
  @CsvSource({"R, 7", "L, 7", "R, -12"})
  void turnsTheMidlineWithTheFoveaDiscLine(String code, double degrees) {
    Laterality eye = Laterality.ofCode(code).orElseThrow();
    double turn = Math.toRadians(degrees);
    // 10 µm per mm across the line that rises towards the nose by that angle.
    Surface across =
        (x, y) -> 80 + 10 * (-y * Math.cos(turn) - eye.nasalSign() * x * Math.sin(turn));

    GanglionTable table =
        TABULATOR.tabulate(Scans.map(LATTICE, eye, across), GRID, AngleZero.foveaDiscLine(degrees));

    MidlineDifference mirrored = difference(table.mirrored());
    assertEquals(80, (mirrored.superiorUm() + mirrored.inferiorUm()) / 2, 1e-4);
    assertEquals(difference(table.halves()).differenceUm(), mirrored.differenceUm(), 0.02);
    // The ellipse is level and the line is not: a half's centroid moves by under 2 %.
    assertEquals(17.8, mirrored.differenceUm(), 0.4);
    assertEquals(degrees, table.zero().foveaDiscDegrees());
  }

  @ParameterizedTest
  @EnumSource(Laterality.class)
  void findsTheThinnestSpoke(Laterality eye) {
    GanglionTable table =
        level(
            eye,
            (x, y) -> {
              double temporal = -eye.nasalSign() * x;
              double angle = Math.toDegrees(Math.atan2(-y, temporal));
              return 80 - 25 * Math.exp(-Math.pow((angle + 70) / 8, 2));
            });

    // Spokes reach from -72 to -68 degrees: the mean of the dip over them is 0.98 of its depth.
    assertEquals(290, table.minimumTowardsDegrees().orElseThrow());
    assertEquals(80 - 25 * 0.9795, mean(table.minimum()), 0.05);
    assertEquals("minimum", table.minimum().sector());
  }

  @Test
  void refusesWhatIsNotCovered() {
    ThicknessMap map = Scans.map(LATTICE, Laterality.RIGHT, (x, y) -> y > 1.2 ? Double.NaN : 80);

    GanglionTable table = TABULATOR.tabulate(map, GRID, AngleZero.HORIZONTAL);

    assertEquals(80, mean(table.sectors().get(1)), 1e-9);
    NotMeasurable inferior = assertInstanceOf(NotMeasurable.class, table.sectors().get(4));
    assertEquals(NotMeasurable.Reason.LOW_COVERAGE, inferior.reason());
    NotMeasurable annulus = assertInstanceOf(NotMeasurable.class, table.annulus());
    assertEquals(NotMeasurable.Reason.INCOMPLETE_GRID, annulus.reason());
    NotMeasurable minimum = assertInstanceOf(NotMeasurable.class, table.minimum());
    assertEquals(NotMeasurable.Reason.LOW_COVERAGE, minimum.reason());
    assertTrue(table.minimumTowardsDegrees().isEmpty());
    MidlineMissing halves = assertInstanceOf(MidlineMissing.class, table.halves());
    assertTrue(halves.detail().startsWith("inferior half: "), halves.detail());
    MidlineMissing mirrored = assertInstanceOf(MidlineMissing.class, table.mirrored());
    assertEquals(halves.coveredFraction(), (1 + mirrored.coveredFraction()) / 2, 0.002);
  }

  @Test
  void refusesWhatLiesBeyondTheMap() {
    ThicknessMap map = Scans.map(MapLattice.centred(1.5, 0.02), Laterality.LEFT, (x, y) -> 80);

    GanglionTable table = TABULATOR.tabulate(map, GRID, AngleZero.HORIZONTAL);

    // Of the annulus, 3 x 3 mm less the inner ellipse lie on the map.
    assertEquals((9 - Math.PI * 0.3) / AREA, table.annulus().coveredFraction(), 0.01);
    assertInstanceOf(NotMeasurable.class, table.annulus());
    assertInstanceOf(MidlineMissing.class, table.mirrored());
  }

  @Test
  void comparesOnlyPlacesThatHaveAMirrorImage() {
    // Thin where the lower half has no value: the halves see it, the mirrored places do not.
    Surface surface =
        (x, y) -> Math.hypot(x - 1.5, Math.abs(y) - 0.8) > 0.4 ? 80 : y < 0 ? 40 : Double.NaN;

    GanglionTable table = level(Laterality.RIGHT, surface);

    assertTrue(difference(table.halves()).differenceUm() < -2);
    assertEquals(0, difference(table.mirrored()).differenceUm(), 1e-9);
    assertEquals(
        1 - Math.PI * 0.16 / (AREA / 2), difference(table.mirrored()).coveredFraction(), 0.005);
  }

  @Test
  void mirrorsToTheLastBit() {
    Random random = new Random(31);
    ThicknessMap right =
        Scans.map(
            LATTICE,
            Laterality.RIGHT,
            (x, y) -> random.nextInt(60) == 0 ? Double.NaN : 50 + 60 * random.nextDouble());
    AngleZero zero = AngleZero.foveaDiscLine(6.3);

    GanglionTable one = TABULATOR.tabulate(right, GRID, zero);
    GanglionTable other = TABULATOR.tabulate(Scans.mirrored(right), GRID, zero);

    assertEquals(one.sectors(), other.sectors());
    assertEquals(one.annulus(), other.annulus());
    assertEquals(one.minimum(), other.minimum());
    assertEquals(one.minimumTowardsDegrees(), other.minimumTowardsDegrees());
    assertEquals(one.halves(), other.halves());
    assertEquals(one.mirrored(), other.mirrored());
    assertInstanceOf(MidlineDifference.class, one.mirrored());
  }

  @Test
  void refusesGridsThatAreNoAnnulus() {
    assertThrows(IllegalArgumentException.class, () -> grid(0.5, 0.6, 0.5, 2));
    assertThrows(IllegalArgumentException.class, () -> grid(0, 0.6, 2, 2));
    assertThrows(IllegalArgumentException.class, () -> grid(1.2, 1, 4.8, 5.1));
  }

  private static GanglionGrid grid(double a, double b, double c, double d) {
    return new GanglionGrid("g", "ours", a, b, c, d);
  }

  private static GanglionTable level(Laterality eye, Surface surface) {
    return TABULATOR.tabulate(Scans.map(LATTICE, eye, surface), GRID, AngleZero.HORIZONTAL);
  }

  private static double mean(SectorResult result) {
    return assertInstanceOf(Measured.class, result).meanUm();
  }

  private static MidlineDifference difference(MidlineResult result) {
    return assertInstanceOf(MidlineDifference.class, result);
  }
}
