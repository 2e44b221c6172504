package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.map.Landmark;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.job.MappedLayer;
import org.isopach.job.MeasuredScan;

/**
 * The errors of one scan.
 *
 * @param seed the eye
 * @param depths errors of each boundary
 * @param places errors of each layer's table
 * @param centred errors of each layer's table when the grid is put on the true fovea
 * @param foveaUm distance from the true fovea in µm; empty when no pit was found
 */
record ScanScore(
    long seed,
    Map<Boundary, ErrorTally> depths,
    List<PlaceError> places,
    List<PlaceError> centred,
    OptionalDouble foveaUm) {
  /** The boundaries that are measured. */
  static final List<Boundary> BOUNDARIES = List.of(Boundary.values());

  private static final double UM_PER_MM = 1000;

  static ScanScore of(long seed, PhantomScan phantom, MeasuredScan measured) {
    Map<Boundary, ErrorTally> depths = new EnumMap<>(Boundary.class);
    for (Boundary boundary : BOUNDARIES) {
      ErrorTally tally = new ErrorTally();
      compare(phantom, boundary, measured.boundaries().flatMap(s -> s.surface(boundary)), tally);
      depths.put(boundary, tally);
    }
    List<PlaceError> places = new ArrayList<>();
    List<PlaceError> centred = new ArrayList<>();
    for (Layer layer : LayerCatalogue.WHOLE_RETINA) {
      Map<String, Double> truth = SectorTruth.of(phantom.truth(), layer);
      Optional<MappedLayer> found = measured.layer(layer);
      places.addAll(places(seed, truth, layer, found.map(MappedLayer::table)));
      centred.addAll(
          places(seed, truth, layer, found.map(one -> aboutTrueFovea(phantom, measured, one))));
    }
    return new ScanScore(seed, depths, places, centred, fovea(phantom, measured));
  }

  private static SectorTable aboutTrueFovea(
      PhantomScan phantom, MeasuredScan measured, MappedLayer layer) {
    return GivenCentre.table(
        measured.scan(),
        measured.place().orElseThrow().path(),
        measured.boundaries().orElseThrow(),
        layer,
        new Landmark(phantom.truth().fovea(), Landmark.Source.STATED));
  }

  private static void compare(
      PhantomScan phantom, Boundary boundary, Optional<BoundarySurface> found, ErrorTally tally) {
    PhantomTruth truth = phantom.truth();
    double um = phantom.plan().axialUm();
    for (int f = 0; f < truth.size().frames(); f++) {
      for (int a = 0; a < truth.size().ascans() && !truth.blink(f); a++) {
        double expected = truth.depthPx(boundary, f, a);
        double depth = found.isPresent() ? found.get().depthPx(f, a) : Double.NaN;
        if (Double.isNaN(expected)) {
          tally.addAbsent(depth);
          continue;
        }
        tally.add(expected * um, depth * um);
      }
    }
  }

  private static List<PlaceError> places(
      long seed, Map<String, Double> expected, Layer layer, Optional<SectorTable> table) {
    List<PlaceError> errors = new ArrayList<>();
    for (String place : SectorTruth.PLACES) {
      OptionalDouble mean = table.map(one -> mean(one, place)).orElse(OptionalDouble.empty());
      OptionalDouble error =
          mean.isPresent()
              ? OptionalDouble.of(mean.getAsDouble() - expected.get(place))
              : OptionalDouble.empty();
      errors.add(new PlaceError(seed, layer, place, error));
    }
    return errors;
  }

  private static OptionalDouble mean(SectorTable table, String place) {
    SectorResult result =
        place.equals(SectorTabulator.CENTRE_POINT)
            ? table.centrePoint()
            : table.sector(place).orElseThrow();
    return result instanceof Measured measured
        ? OptionalDouble.of(measured.meanUm())
        : OptionalDouble.empty();
  }

  private static OptionalDouble fovea(PhantomScan phantom, MeasuredScan measured) {
    Optional<Landmark> centre = measured.place().map(MeasuredScan.Place::centre);
    if (centre.isEmpty() || centre.get().source() != Landmark.Source.FOVEAL_PIT) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(UM_PER_MM * centre.get().point().distanceMm(phantom.truth().fovea()));
  }
}
