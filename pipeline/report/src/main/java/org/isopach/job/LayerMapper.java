package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionScene;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.region.RegionTabulator;
import org.isopach.analysis.scan.OctScan;

/** Turns what was found in a scan into maps and sectors, one layer to a worker. */
final class LayerMapper {
  static final double STEP_MM = 0.02;
  static final double LEAST_HALF_WIDTH_MM = 3.0;
  static final double MINIMUM_COVERAGE = SectorTabulator.DEFAULT_MINIMUM_COVERAGE;

  private final MapInterpolator interpolator = new MapInterpolator(InterpolationRules.DEFAULT);
  private final SectorTabulator tabulator;
  private final RegionTabulator regions;
  private final List<Layer> layers;
  private final SectorGrid grid;
  private final MapLattice lattice;
  private final ExecutorService pool;

  LayerMapper(JobRequest request, SectorTabulator tabulator, ExecutorService pool) {
    this.tabulator = tabulator;
    this.regions = new RegionTabulator(interpolator, tabulator, MINIMUM_COVERAGE);
    this.layers = request.layers();
    this.grid = request.grid();
    this.lattice = MapLattice.centred(Math.max(LEAST_HALF_WIDTH_MM, grid.reachMm()), STEP_MM);
    this.pool = pool;
  }

  /** Returns the maps of the layers whose boundaries are there, in the order asked for. */
  List<MappedLayer> map(OctScan scan, BoundarySet boundaries, MeasuredScan.Place place)
      throws InterruptedException {
    List<Callable<MappedLayer>> work = new ArrayList<>();
    for (Layer layer : layers) {
      if (boundaries.has(layer)) {
        work.add(() -> one(scan, boundaries, layer, place));
      }
    }
    return Workers.all(pool, work);
  }

  private MappedLayer one(
      OctScan scan, BoundarySet boundaries, Layer layer, MeasuredScan.Place place) {
    ThicknessMap map =
        interpolator.interpolate(scan, place.path(), boundaries, layer, place.centre(), lattice);
    return tabulated(map);
  }

  /** Returns the sizes of a scan's regions, one table for each kind looked for. */
  List<RegionTable> regions(RegionScene scene) throws InterruptedException {
    List<Callable<RegionTable>> work = new ArrayList<>();
    for (RegionKind kind : scene.labels().searched()) {
      work.add(() -> regions.tabulate(scene, kind, grid, lattice));
    }
    return Workers.all(pool, work);
  }

  /** Returns a map that was made elsewhere, with its sectors. */
  MappedLayer tabulated(ThicknessMap map) {
    SectorTable table = tabulator.tabulate(map, grid, MINIMUM_COVERAGE);
    return new MappedLayer(map, table);
  }
}
