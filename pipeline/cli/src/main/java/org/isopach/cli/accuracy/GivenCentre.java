package org.isopach.cli.accuracy;

import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.scan.OctScan;
import org.isopach.job.MappedLayer;

/** Makes the table of a layer again about a given centre, with everything else as it was. */
final class GivenCentre {
  private static final SectorTabulator TABULATOR = new SectorTabulator();
  private static final MapInterpolator INTERPOLATOR =
      new MapInterpolator(InterpolationRules.DEFAULT);

  private GivenCentre() {}

  /**
   * @param path where the boundaries' A-scans lie
   * @param like says layer, lattice, grid and coverage
   */
  static SectorTable table(
      OctScan scan, ScanPath path, BoundarySet boundaries, MappedLayer like, Landmark centre) {
    return TABULATOR.tabulate(
        INTERPOLATOR.interpolate(
            scan, path, boundaries, like.map().layer(), centre, like.map().lattice()),
        like.table().grid(),
        like.table().minimumCoverage());
  }
}
