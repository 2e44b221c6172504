package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.isopach.analysis.change.ChangeTable;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.fixtures.phantom.Lesion;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.job.ScanChange;

/** Second scans of an eye, and the errors of the change that is found in them. */
final class ChangeTrial {
  private static final long SECOND_SCAN = 500_000;
  private static final long THIRD_SCAN = 600_000;

  private ChangeTrial() {}

  /** Returns the eye scanned again: other place, tilt, motion, picture; the same anatomy. */
  static PhantomParameters rescanned(PhantomParameters first, long seed) {
    return first.rescanned(SECOND_SCAN + seed);
  }

  /**
   * Returns the eye scanned again with a swelling drawn by the seed: 60 to 200 µm high, 1.2 to 2.4
   * mm wide at half height, its middle within 1 mm of the fovea, a fifth of it cysts.
   */
  static PhantomParameters swollen(PhantomParameters first, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double r = Math.sqrt(random.nextDouble());
    double angle = 2 * Math.PI * random.nextDouble();
    Lesion swelling =
        new Lesion.Swelling(
            60 + 140 * random.nextDouble(),
            1.2 + 1.2 * random.nextDouble(),
            r * Math.cos(angle),
            r * Math.sin(angle),
            Lesion.Profile.GAUSSIAN,
            0.2);
    return first.rescanned(THIRD_SCAN + seed).withLesion(swelling);
  }

  /** Returns found minus true change of every number; no number where the change was refused. */
  static List<PlaceError> errors(
      long seed, PhantomTruth before, PhantomTruth after, ScanChange change) {
    List<PlaceError> errors = new ArrayList<>();
    for (Layer layer : LayerCatalogue.WHOLE_RETINA) {
      Map<String, Double> first = SectorTruth.of(before, layer);
      Map<String, Double> second = SectorTruth.of(after, layer);
      Optional<ChangeTable> table =
          change.layers().stream()
              .map(one -> one.change().table())
              .filter(one -> one.layer().equals(layer))
              .findFirst();
      for (String place : SectorTruth.PLACES) {
        double expected = second.get(place) - first.get(place);
        OptionalDouble error =
            table
                .map(one -> changeUm(one, place))
                .filter(OptionalDouble::isPresent)
                .map(one -> OptionalDouble.of(one.getAsDouble() - expected))
                .orElse(OptionalDouble.empty());
        errors.add(new PlaceError(seed, layer, place, error));
      }
    }
    return errors;
  }

  private static OptionalDouble changeUm(ChangeTable table, String place) {
    SectorChange change =
        place.equals(SectorTabulator.CENTRE_POINT)
            ? table.centrePoint()
            : table.sector(place).orElseThrow();
    return change instanceof SectorChange.MeasuredChange measured
        ? OptionalDouble.of(measured.changeUm())
        : OptionalDouble.empty();
  }
}
