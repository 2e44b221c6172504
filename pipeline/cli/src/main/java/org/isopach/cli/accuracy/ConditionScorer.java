package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.PhantomTruth;

/** Compares what was found in a scan with its truth. */
final class ConditionScorer {
  /** The neurosensory retina, with the fluid under it: to the pigment epithelium's inner border. */
  static final Layer NEUROSENSORY = new Layer(Boundary.ILM, Boundary.RPE_INNER);

  /** The thicknesses whose sectors are compared. */
  static final List<Layer> LAYERS = List.of(NEUROSENSORY, Layer.ILM_BM);

  private static final double HALF_WIDTH_MM = 3;
  private static final double STEP_MM = 0.02;
  private static final MapInterpolator INTERPOLATOR =
      new MapInterpolator(InterpolationRules.DEFAULT);
  private static final SectorTabulator TABULATOR = new SectorTabulator();

  private ConditionScorer() {}

  /**
   * Returns the errors of a scan.
   *
   * @param boundaries what was found, empty when the scan was refused
   * @param regions what was found
   */
  static ConditionScan of(
      long seed, PhantomScan phantom, Optional<BoundarySet> boundaries, RegionLabels regions) {
    Map<Boundary, DepthTally> depths = new EnumMap<>(Boundary.class);
    Map<Boundary, Reliability> confidence = new EnumMap<>(Boundary.class);
    for (Boundary boundary : Boundary.values()) {
      DepthTally tally = new DepthTally();
      Reliability reliability = new Reliability();
      Optional<BoundarySurface> surface = boundaries.flatMap(set -> set.surface(boundary));
      compare(phantom, boundary, surface, tally, reliability);
      depths.put(boundary, tally);
      confidence.put(boundary, reliability);
    }
    return new ConditionScan(
        seed,
        boundaries.isEmpty(),
        depths,
        confidence,
        sectors(seed, phantom, boundaries),
        RegionScorer.of(phantom, regions));
  }

  private static void compare(
      PhantomScan phantom,
      Boundary boundary,
      Optional<BoundarySurface> found,
      DepthTally tally,
      Reliability reliability) {
    PhantomTruth truth = phantom.truth();
    double um = phantom.plan().axialUm();
    for (int f = 0; f < truth.size().frames(); f++) {
      for (int a = 0; a < truth.size().ascans() && !truth.blink(f); a++) {
        double expected = truth.depthPx(boundary, f, a);
        double depth = found.isPresent() ? found.get().depthPx(f, a) : Double.NaN;
        double confidence = found.isPresent() ? found.get().confidence(f, a) : 0;
        tally.add(expected * um, depth * um, confidence);
        if (!Double.isNaN(depth) && !Double.isNaN(expected)) {
          reliability.add(confidence, depth - expected);
        }
      }
    }
  }

  private static List<PlaceError> sectors(
      long seed, PhantomScan phantom, Optional<BoundarySet> boundaries) {
    List<PlaceError> errors = new ArrayList<>();
    for (Layer layer : LAYERS) {
      Map<String, Double> truth = SectorTruth.sectors(phantom.truth(), layer);
      Optional<SectorTable> table = boundaries.map(set -> table(phantom, set, layer));
      for (Sector sector : EtdrsGrids.ETDRS_1_3_6.sectors()) {
        double expected = truth.get(sector.name());
        if (!Double.isNaN(expected)) {
          OptionalDouble error = error(table, sector.name(), expected);
          errors.add(new PlaceError(seed, layer, sector.name(), error));
        }
      }
    }
    return errors;
  }

  private static OptionalDouble error(Optional<SectorTable> table, String sector, double expected) {
    return table.flatMap(one -> one.sector(sector)).stream()
        .filter(Measured.class::isInstance)
        .mapToDouble(one -> ((Measured) one).meanUm() - expected)
        .findFirst();
  }

  private static SectorTable table(PhantomScan phantom, BoundarySet boundaries, Layer layer) {
    OctScan scan = phantom.scan();
    Landmark fovea = new Landmark(phantom.truth().fovea(), Landmark.Source.STATED);
    return TABULATOR.tabulate(
        INTERPOLATOR.interpolate(
            scan,
            scan.path().orElseThrow(),
            boundaries,
            layer,
            fovea,
            MapLattice.centred(HALF_WIDTH_MM, STEP_MM)),
        EtdrsGrids.ETDRS_1_3_6,
        SectorTabulator.DEFAULT_MINIMUM_COVERAGE);
  }
}
