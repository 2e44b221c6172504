package org.isopach.analysis.change;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.testing.Scans;
import org.isopach.analysis.testing.Surface;

/** Pairs of maps of known thickness, and noise of known size. */
final class Pairs {
  static final MapLattice LATTICE = MapLattice.centred(3.0, 0.05);
  static final SectorTabulator TABULATOR = new SectorTabulator();
  private static final ScanIdentity FIRST =
      Scans.identity("TSE-0001", "2.25.21", "2026-01-30T09:50:00");
  private static final ScanIdentity SECOND =
      Scans.identity("TSE-0001", "2.25.22", "2026-03-01T09:10:00");
  private static final AxialScale AXIAL = AxialScale.ofMicrometresPerPixel(3.87);

  private Pairs() {}

  static RepeatPair of(Laterality eye, Surface before, Surface after, double placeSdMm) {
    return of(eye, before, after, placeSdMm, Map.of(), Map.of());
  }

  static RepeatPair of(
      Laterality eye,
      Surface before,
      Surface after,
      double placeSdMm,
      Map<String, Double> firstDoubt,
      Map<String, Double> secondDoubt) {
    VisitChange change =
        new VisitComparer(TABULATOR)
            .compare(
                new VisitMap(Scans.map(LATTICE, eye, FIRST, before), AXIAL),
                new VisitMap(Scans.map(LATTICE, eye, SECOND, after), AXIAL),
                EtdrsGrids.ETDRS_1_3_6,
                0.9);
    return new RepeatPair(
        assertInstanceOf(VisitChange.Compared.class, change), placeSdMm, firstDoubt, secondDoubt);
  }

  /** Returns the same noise in all sectors and the total, and at all places. */
  static RepeatNoise noise(double sectorSdUm, double df, double pointSdUm) {
    Map<String, SectorNoise> sectors = new LinkedHashMap<>();
    Map<String, PointNoise.Spot> spots = new LinkedHashMap<>();
    SectorNoise one =
        new SectorNoise(sectorSdUm, df, 0, 40, NoiseSource.GIVEN_REPEATS, "made for the test");
    for (Sector sector : EtdrsGrids.ETDRS_1_3_6.sectors()) {
      sectors.put(sector.name(), one);
      spots.put(sector.name(), new PointNoise.Spot(pointSdUm, 0, 40));
    }
    sectors.put("total", one);
    PointNoise points =
        new PointNoise(
            spots,
            0.12,
            Double.POSITIVE_INFINITY,
            0.24,
            NoiseSource.GIVEN_REPEATS,
            "made for the test");
    return new RepeatNoise(Layer.ILM_BM, sectors, Optional.of(points), "");
  }

  static ChangeUncertainty.Given given(ChangeTable table, String sector) {
    SectorChange.MeasuredChange change =
        assertInstanceOf(SectorChange.MeasuredChange.class, table.sector(sector).orElseThrow());
    return assertInstanceOf(ChangeUncertainty.Given.class, change.uncertainty());
  }
}
