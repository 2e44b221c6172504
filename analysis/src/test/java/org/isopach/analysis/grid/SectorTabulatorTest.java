package org.isopach.analysis.grid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.testing.Scans;
import org.isopach.analysis.testing.Surface;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Expected values without another source are closed forms over the sectors. A cell stands for its
 * centre, so a slope across a sector's border is off by at most step^2 / 12 times the border's
 * length over the sector's area: 0.001 µm for 10 µm/mm on the lattice of 0.02 mm, 0.023 µm for the
 * wall of the steeper pit (171 µm/mm at 0.5 mm).
 */
class SectorTabulatorTest {
  private static final MapLattice LATTICE = MapLattice.centred(3.0, 0.02);
  private static final SectorGrid ETDRS = EtdrsGrids.ETDRS_1_3_6;
  private static final double ALL = 0.9;

  private final SectorTabulator tabulator = new SectorTabulator();

  @ParameterizedTest
  @CsvSource({"250, 7.068583", "275, 7.775442", "300, 8.482300"})
  void findsASlabTheSameEverywhere(double thickness, double volume) {
    SectorTable table = tabulate(Laterality.RIGHT, (x, y) -> thickness);

    assertEquals(10, table.sectors().size());
    for (SectorResult result : table.sectors()) {
      Measured measured = assertInstanceOf(Measured.class, result);
      assertEquals(thickness, measured.meanUm(), 1e-9, result.sector());
      assertEquals(0, measured.sdUm(), 1e-6);
      assertEquals(thickness, measured.minUm());
      assertEquals(thickness, measured.maxUm());
      assertEquals(1.0, measured.coveredFraction());
    }
    assertEquals(9 * Math.PI, measured(table, "total").areaMm2(), 1e-9);
    assertEquals(volume, measured(table, "total").volumeMm3(), 5e-7);
    assertEquals(thickness, assertInstanceOf(Measured.class, table.centrePoint()).meanUm(), 1e-9);
  }

  /**
   * Means of normal eyes (BMC Ophthalmology 2018;18:169, table 6), each sector flat; the volumes
   * and the whole are computed from them in closed form. The map has steps of up to 83 µm on the
   * sectors' borders, where a cell is all of one side: hence 1.5 µm. {@link GridTotalTest} has the
   * same numbers without a map.
   */
  @ParameterizedTest
  @EnumSource(Laterality.class)
  void reproducesTheVolumesOfAPublishedTable(Laterality laterality) {
    Map<String, double[]> published =
        Map.of(
            "centre", new double[] {257.04, 0.201879},
            "inner-superior", new double[] {339.37, 0.533081},
            "inner-nasal", new double[] {339.58, 0.533411},
            "inner-inferior", new double[] {335.10, 0.526374},
            "inner-temporal", new double[] {324.92, 0.510383},
            "outer-superior", new double[] {300.39, 1.592499},
            "outer-nasal", new double[] {317.43, 1.682835},
            "outer-inferior", new double[] {287.16, 1.522361},
            "outer-temporal", new double[] {283.77, 1.504389});

    SectorTable table =
        tabulate(laterality, (x, y) -> published.get(sectorOf(laterality.nasalSign() * x, -y))[0]);

    published.forEach(
        (name, values) -> {
          assertEquals(values[0], measured(table, name).meanUm(), 1.5, name);
          assertEquals(values[1], measured(table, name).volumeMm3(), 0.003, name);
        });
    assertEquals(304.417847, measured(table, "total").meanUm(), 0.03);
    assertEquals(8.607212, measured(table, "total").volumeMm3(), 0.001);
  }

  @ParameterizedTest
  @CsvSource({
    "centre, 300",
    "inner-superior, 300",
    "inner-nasal, 309.7534",
    "inner-inferior, 300",
    "inner-temporal, 290.2466",
    "outer-superior, 300",
    "outer-nasal, 321.0074",
    "outer-inferior, 300",
    "outer-temporal, 278.9926",
    "total, 300"
  })
  void meetsASlopeAtTheCentroidOfEachSector(String sector, double expected) {
    for (Laterality eye : Laterality.values()) {
      SectorTable table = tabulate(eye, (x, y) -> 300 + 10 * eye.nasalSign() * x);
      assertEquals(expected, measured(table, sector).meanUm(), 0.001, eye + " " + sector);
    }
  }

  @ParameterizedTest
  @CsvSource({"inner-superior, 309.7534", "inner-inferior, 290.2466", "outer-superior, 321.0074"})
  void putsSuperiorAtTheTop(String sector, double expected) {
    SectorTable table = tabulate(Laterality.LEFT, (x, y) -> 300 - 10 * y);

    assertEquals(expected, measured(table, sector).meanUm(), 0.001);
  }

  @ParameterizedTest
  @CsvSource({"centre, 0.3333333333", "inner-nasal, 1.0833333333", "outer-inferior, 2.3333333333"})
  void averagesACone(String sector, double meanRadius) {
    SectorTable table = tabulate(Laterality.RIGHT, (x, y) -> 200 + 20 * Math.hypot(x, y));

    assertEquals(200 + 20 * meanRadius, measured(table, sector).meanUm(), 0.003);
  }

  @ParameterizedTest
  @CsvSource({
    "centre, 0.125, 0.0052083333",
    "inner-temporal, 1.25, 0.3333333333",
    "outer-superior, 5.625, 3.796875",
    "total, 4.5, 6.75"
  })
  void findsMeanAndSpreadOfAParaboloid(String sector, double mean, double variance) {
    // r^2 is evenly distributed over a ring, so its variance is its range squared over 12.
    SectorTable table = tabulate(Laterality.LEFT, (x, y) -> 250 + 8 * (x * x + y * y));

    assertEquals(250 + 8 * mean, measured(table, sector).meanUm(), 0.003);
    assertEquals(8 * Math.sqrt(variance), measured(table, sector).sdUm(), 0.003);
  }

  @ParameterizedTest
  @CsvSource({"0.4, 83.276796, 8.773431, 0.005028", "0.5, 94.432642, 17.862650, 0.098747"})
  void averagesAPit(double sigma, double centre, double inner, double outer) {
    SectorTable table =
        tabulate(
            Laterality.RIGHT,
            (x, y) -> 320 - 120 * Math.exp(-(x * x + y * y) / (2 * sigma * sigma)));

    assertEquals(320 - centre, measured(table, "centre").meanUm(), 0.023);
    assertEquals(320 - inner, measured(table, "inner-nasal").meanUm(), 0.012);
    assertEquals(320 - outer, measured(table, "outer-nasal").meanUm(), 0.001);
    assertEquals(200, measured(table, "centre").minUm(), 1e-4);
  }

  @Test
  void namesAllSectorsOfAMirroredEyeAlikeToTheLastBit() {
    Random random = new Random(1234);
    for (SectorGrid grid : new SectorGrid[] {ETDRS, EtdrsGrids.ETDRS_1_2_22_3_45}) {
      ThicknessMap right =
          Scans.map(
              LATTICE,
              Laterality.RIGHT,
              (x, y) -> random.nextInt(30) == 0 ? Double.NaN : 200 + 200 * random.nextDouble());
      SectorTable expected = tabulator.tabulate(right, grid, ALL);

      SectorTable actual = tabulator.tabulate(Scans.mirrored(right), grid, ALL);

      assertEquals(Laterality.LEFT, actual.laterality());
      assertEquals(expected.sectors(), actual.sectors());
      assertEquals(expected.centrePoint(), actual.centrePoint());
      assertNotEquals(
          measured(expected, "outer-nasal").meanUm(),
          measured(expected, "outer-temporal").meanUm());
    }
  }

  @Test
  void refusesASectorWithTooFewValuesAndTheWholeWithIt() {
    // Nothing nasal of 2.5 mm: cuts into the outer nasal sector only.
    SectorTable table = tabulate(Laterality.RIGHT, (x, y) -> x > 2.5 ? Double.NaN : 300);
    double lost = 9 * Math.acos(2.5 / 3) - 2.5 * Math.sqrt(9 - 2.5 * 2.5);
    double left = 1 - lost / (27 * Math.PI / 16);

    NotMeasurable outerNasal = notMeasurable(table, "outer-nasal");
    assertEquals(NotMeasurable.Reason.LOW_COVERAGE, outerNasal.reason());
    assertEquals(left, outerNasal.coveredFraction(), 0.01);
    assertEquals(27 * Math.PI / 16, outerNasal.areaMm2(), 1e-12);
    assertTrue(outerNasal.detail().contains("90.0 % are needed"), outerNasal.detail());
    assertEquals(300, measured(table, "outer-superior").meanUm(), 1e-9);
    NotMeasurable total = notMeasurable(table, "total");
    assertEquals(NotMeasurable.Reason.INCOMPLETE_GRID, total.reason());
    assertEquals(1 - lost / (9 * Math.PI), total.coveredFraction(), 0.002);
    assertTrue(total.detail().startsWith("1 of 9"), total.detail());

    SectorTable lenient =
        tabulator.tabulate(
            Scans.map(LATTICE, Laterality.RIGHT, (x, y) -> x > 2.5 ? Double.NaN : 300),
            ETDRS,
            left - 0.01);
    assertEquals(300, measured(lenient, "total").meanUm(), 1e-9);
    assertEquals(9 * Math.PI * 0.3, measured(lenient, "total").volumeMm3(), 1e-9);
  }

  @Test
  void saysWhereThereIsNothingAtAll() {
    SectorTable table =
        tabulate(Laterality.LEFT, (x, y) -> Math.hypot(x, y) < 1.6 ? 310 : Double.NaN);

    assertEquals(310, measured(table, "inner-nasal").meanUm(), 1e-9);
    assertEquals(NotMeasurable.Reason.LOW_COVERAGE, notMeasurable(table, "outer-nasal").reason());

    SectorTable empty = tabulate(Laterality.LEFT, (x, y) -> Double.NaN);
    assertEquals(NotMeasurable.Reason.OUTSIDE_SCAN, notMeasurable(empty, "centre").reason());
    NotMeasurable point = assertInstanceOf(NotMeasurable.class, empty.centrePoint());
    assertEquals(NotMeasurable.Reason.OUTSIDE_SCAN, point.reason());
    assertEquals(0, point.coveredFraction());
  }

  @Test
  void refusesSectorsThatTheLatticeDoesNotHold() {
    SectorTable table =
        tabulator.tabulate(
            Scans.map(MapLattice.centred(2.0, 0.02), Laterality.RIGHT, (x, y) -> 300), ETDRS, ALL);

    assertEquals(300, measured(table, "inner-superior").meanUm(), 1e-9);
    assertTrue(notMeasurable(table, "outer-superior").coveredFraction() < 0.5);
  }

  @Test
  void takesTheThicknessAtTheLandmarkFromASmallDisc() {
    // Mean r^2 over a disc of 0.05 mm is 0.00125 mm2.
    SectorTable table =
        tabulate(Laterality.RIGHT, (x, y) -> 210 + 400 * (x * x + y * y) + 30 * x - 20 * y);

    assertEquals(
        210 + 400 * 0.00125, assertInstanceOf(Measured.class, table.centrePoint()).meanUm(), 0.03);
  }

  @Test
  void carriesWhatTheNumbersAreOf() {
    SectorTable table = tabulate(Laterality.LEFT, (x, y) -> 300);

    assertEquals(Layer.ILM_BM, table.layer());
    assertEquals(ETDRS, table.grid());
    assertEquals(Laterality.LEFT, table.laterality());
    assertEquals(Scans.identity("2.25.12"), table.scan());
    assertEquals(ALL, table.minimumCoverage());
    assertTrue(table.sector("middle").isEmpty());
  }

  @ParameterizedTest
  @CsvSource({"0", "-0.1", "1.01", "NaN"})
  void refusesACoverageThatIsNone(double minimumCoverage) {
    ThicknessMap map = Scans.map(LATTICE, Laterality.LEFT, (x, y) -> 300);

    assertThrows(
        IllegalArgumentException.class, () -> tabulator.tabulate(map, ETDRS, minimumCoverage));
  }

  private SectorTable tabulate(Laterality laterality, Surface surface) {
    return tabulator.tabulate(Scans.map(LATTICE, laterality, surface), ETDRS, ALL);
  }

  private static Measured measured(SectorTable table, String sector) {
    return assertInstanceOf(Measured.class, table.sector(sector).orElseThrow());
  }

  private static NotMeasurable notMeasurable(SectorTable table, String sector) {
    return assertInstanceOf(NotMeasurable.class, table.sector(sector).orElseThrow());
  }

  private static String sectorOf(double nasalMm, double superiorMm) {
    double r = Math.hypot(nasalMm, superiorMm);
    if (r < 0.5) {
      return "centre";
    }
    String quarter =
        Math.abs(nasalMm) >= Math.abs(superiorMm)
            ? (nasalMm > 0 ? "nasal" : "temporal")
            : (superiorMm > 0 ? "superior" : "inferior");
    return (r < 1.5 ? "inner-" : "outer-") + quarter;
  }
}
