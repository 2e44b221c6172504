package org.isopach.job;

import java.util.OptionalDouble;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.region.RegionScene;
import org.isopach.analysis.region.RegionTabulator;

/** The volumes of somebody's regions, reckoned as ours are. */
final class RegionVolumes {
  private final JobRequest request;
  private final MapLattice lattice;
  private final RegionTabulator tabulator;

  RegionVolumes(JobRequest request, SectorTabulator sectors) {
    this.request = request;
    this.lattice =
        MapLattice.centred(
            Math.max(LayerMapper.LEAST_HALF_WIDTH_MM, request.grid().reachMm()),
            LayerMapper.STEP_MM);
    this.tabulator =
        new RegionTabulator(
            new MapInterpolator(InterpolationRules.DEFAULT), sectors, LayerMapper.MINIMUM_COVERAGE);
  }

  /** Returns the volume in nL in the whole scan; empty when it cannot be measured. */
  OptionalDouble wholeNl(MeasuredScan scan, RegionLabels labels, RegionKind kind) {
    double factor = request.axialLengths().factor(scan.scan()).orElse(1.0);
    RegionScene scene =
        new RegionScene(
            scan.scan(),
            scan.scan().path().map(path -> factor == 1 ? path : path.scaledBy(factor)),
            scan.place().map(MeasuredScan.Place::centre),
            scan.boundaries().orElseThrow(),
            labels);
    return RegionCheck.volume(tabulator.tabulate(scene, kind, request.grid(), lattice));
  }
}
