package org.isopach.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.util.Optional;
import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.OcularMagnification;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.testing.Paths;
import org.isopach.analysis.testing.Scans;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** From boundaries to sector means; expected values are closed forms over the sectors. */
class MeasurementChainTest {
  private static final FundusPoint MIDDLE = new FundusPoint(4.5, 4.25);
  private static final Landmark FOVEA = Scans.pit(4.5, 4.25);
  private static final MapLattice LATTICE = MapLattice.centred(3.0, 0.02);
  private static final SectorGrid ETDRS = EtdrsGrids.ETDRS_1_3_6;

  private final MapInterpolator interpolator = new MapInterpolator(InterpolationRules.DEFAULT);
  private final SectorTabulator tabulator = new SectorTabulator();

  @ParameterizedTest
  @CsvSource({"RIGHT, 0", "RIGHT, 90", "LEFT, 37", "LEFT, 180", "RIGHT, 215", "LEFT, 270"})
  void measuresASlopeWhateverTheRaster(Laterality eye, double degrees) {
    ScanPath path = Paths.raster(Paths.even(73, 9), 768, 9, degrees, MIDDLE);
    BoundarySet boundaries =
        Scans.boundaries(path, (x, y) -> 300 + 10 * eye.nasalSign() * (x - 4.5));

    SectorTable table = measure(path, eye, boundaries, FOVEA);

    // Centroids of 90 degree sectors: 0.975343 mm (inner) and 2.100738 mm (outer).
    assertEquals(309.7534, mean(table, "inner-nasal"), 0.001);
    assertEquals(290.2466, mean(table, "inner-temporal"), 0.001);
    assertEquals(321.0074, mean(table, "outer-nasal"), 0.001);
    assertEquals(278.9926, mean(table, "outer-temporal"), 0.001);
    assertEquals(300, mean(table, "centre"), 0.001);
    assertEquals(300, mean(table, "inner-superior"), 0.001);
    assertEquals(300, mean(table, "outer-inferior"), 0.001);
    assertEquals(300, mean(table, "total"), 0.001);
  }

  @Test
  void measuresASlabOfTheSmallerGrid() {
    ScanPath path = Paths.raster(Paths.even(33, 4), 256, 4, 20, MIDDLE);
    BoundarySet boundaries = Scans.boundaries(path, (x, y) -> 300);

    SectorTable table =
        tabulator.tabulate(
            interpolator.interpolate(
                Scans.scan(path, Optional.of(Laterality.LEFT)),
                path,
                boundaries,
                Layer.ILM_BM,
                FOVEA,
                LATTICE),
            EtdrsGrids.ETDRS_1_2_22_3_45,
            0.9);

    Measured total = assertInstanceOf(Measured.class, table.sector("total").orElseThrow());
    assertEquals(300, total.meanUm(), 1e-4);
    assertEquals(9.348202 * 0.3, total.volumeMm3(), 1e-6);
  }

  @ParameterizedTest
  @EnumSource(Laterality.class)
  void measuresBothEyesOfAMirrorImageAlikeToTheLastBit(Laterality eye) {
    Random random = new Random(6);
    ScanPath path =
        Paths.jittered(Paths.raster(Paths.even(61, 7), 300, 7, 37, new FundusPoint(0, 0)), 0.01, 4);
    BoundarySet rough =
        Scans.boundaries(
            path,
            (x, y) -> random.nextInt(300) == 0 ? Double.NaN : 250 + 100 * random.nextDouble());

    SectorTable table = measure(path, eye, rough, Scans.pit(0.237, -0.081));
    SectorTable mirror =
        measure(Paths.mirrored(path), eye.other(), rough, Scans.pit(-0.237, -0.081));

    assertEquals(10, table.sectors().size());
    assertEquals(table.sectors(), mirror.sectors());
    assertEquals(table.centrePoint(), mirror.centrePoint());
    assertNotEquals(mean(table, "inner-nasal"), mean(table, "inner-temporal"));
  }

  @Test
  void measuresTheInnerGridOfTwelveRadialFramesAndRefusesTheOuter() {
    // Frames 15 degrees apart are 0.4 mm apart at 1.532 mm, just beyond the inner ring.
    ScanPath path = Paths.radial(12, 512, 3, MIDDLE);
    BoundarySet boundaries = Scans.boundaries(path, (x, y) -> 280 + 5 * (x - 4.5));

    SectorTable table = measure(path, Laterality.RIGHT, boundaries, FOVEA);

    assertEquals(280, mean(table, "centre"), 0.001);
    assertEquals(280, mean(table, "inner-superior"), 0.001);
    NotMeasurable outer =
        assertInstanceOf(NotMeasurable.class, table.sector("outer-nasal").orElseThrow());
    assertEquals(NotMeasurable.Reason.LOW_COVERAGE, outer.reason());
  }

  @Test
  void spreadsTheRetinaOfALongEye() {
    // In mm of the instrument's assumed eye t = 200 + 20 r; in the patient's mm r is longer.
    OcularMagnification patient = new OcularMagnification(26);
    OcularMagnification assumed = new OcularMagnification(24);
    ScanPath stated = Paths.raster(Paths.even(73, 7.2), 512, 7.2, 0, new FundusPoint(0, 0));
    BoundarySet boundaries = Scans.boundaries(stated, (x, y) -> 200 + 20 * Math.hypot(x, y));

    SectorTable table =
        measure(patient.rescale(stated, assumed), Laterality.RIGHT, boundaries, Scans.pit(0, 0));

    assertEquals(200 + 20 / 1.09017 * 7 / 3, mean(table, "outer-nasal"), 0.01);
    assertEquals(200 + 20 / 1.09017 * 13 / 12, mean(table, "inner-nasal"), 0.02);
  }

  private SectorTable measure(
      ScanPath path, Laterality eye, BoundarySet boundaries, Landmark centre) {
    return tabulator.tabulate(
        interpolator.interpolate(
            Scans.scan(path, Optional.of(eye)), path, boundaries, Layer.ILM_BM, centre, LATTICE),
        ETDRS,
        0.9);
  }

  private static double mean(SectorTable table, String sector) {
    return assertInstanceOf(Measured.class, table.sector(sector).orElseThrow()).meanUm();
  }
}
