package org.isopach.report;

import java.time.LocalDateTime;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.SourceDocument;

/** Maps of known formula for tests of tables and pictures. */
public final class SampleMaps {
  public static final MapLattice LATTICE = MapLattice.centred(3.0, 0.04);
  public static final LocalDateTime FIRST_VISIT = LocalDateTime.of(2026, 3, 4, 9, 12);

  private SampleMaps() {}

  /** Thickness in µm at mm to the right of and below the landmark. */
  @FunctionalInterface
  public interface Surface {
    double at(double xMm, double yMm);
  }

  public static ScanIdentity scan(String sopUid, LocalDateTime acquired) {
    return new ScanIdentity("SP-0001", "1.2." + sopUid, "1.3", sopUid, Optional.of(acquired));
  }

  public static ThicknessMap map(Laterality laterality, Surface surface) {
    return map(scan("2.25.1", FIRST_VISIT), laterality, Layer.ILM_BM, surface);
  }

  public static ThicknessMap map(
      ScanIdentity scan, Laterality laterality, Layer layer, Surface surface) {
    float[] values = new float[LATTICE.cells()];
    for (int i = 0; i < values.length; i++) {
      values[i] =
          (float)
              surface.at(LATTICE.xMm(i % LATTICE.columns()), LATTICE.yMm(i / LATTICE.columns()));
    }
    return new ThicknessMap(
        layer,
        laterality,
        LATTICE,
        new Landmark(new FundusPoint(4.25, 4.125), Landmark.Source.FOVEAL_PIT),
        scan,
        new SourceDocument("visit/a.dcm", "00"),
        values);
  }

  public static SectorTable table(ThicknessMap map) {
    return new SectorTabulator().tabulate(map, EtdrsGrids.ETDRS_1_3_6, 0.9);
  }
}
