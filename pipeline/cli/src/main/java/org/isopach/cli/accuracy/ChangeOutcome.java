package org.isopach.cli.accuracy;

import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.change.ChangeMask;
import org.isopach.analysis.change.ChangeRegions;
import org.isopach.analysis.change.ChangeTable;
import org.isopach.analysis.change.ChangeUncertainty.Given;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.layer.Layer;

/**
 * What was said of one layer of one pair of visits, held against the truth.
 *
 * @param layer the layer
 * @param intervals sectors and totals with an interval
 * @param covering intervals that hold the true change
 * @param called sectors and totals called changed
 * @param lookedAtMm2 area of the map that was judged
 * @param changedMm2 area of it that was called changed
 * @param detected whether a region of growth has a cell within half a millimetre of the middle of a
 *     true swelling
 */
record ChangeOutcome(
    Layer layer,
    int intervals,
    int covering,
    int called,
    double lookedAtMm2,
    double changedMm2,
    boolean detected) {
  private static final double HIT_MM = 0.5;

  ChangeOutcome {
    Objects.requireNonNull(layer, "layer");
  }

  /** A place in mm from the fovea. */
  record Place(double nasalMm, double superiorMm) {}

  /**
   * Holds a judgement against the truth.
   *
   * @param truth the true change of every sector and of the total in µm
   * @param swelling where a true swelling is, if there is one
   */
  static ChangeOutcome of(
      ChangeTable table,
      ChangeRegions regions,
      ChangeMask mask,
      Map<String, Double> truth,
      Optional<Place> swelling) {
    int intervals = 0;
    int covering = 0;
    int called = 0;
    for (SectorChange sector : table.sectors()) {
      if (sector instanceof MeasuredChange measured
          && measured.uncertainty() instanceof Given given) {
        double change = Objects.requireNonNull(truth.get(sector.sector()));
        intervals++;
        covering += given.lowUm() <= change && change <= given.highUm() ? 1 : 0;
        called += given.beyondNoise() ? 1 : 0;
      }
    }
    boolean hit =
        swelling.isPresent()
            && regions instanceof ChangeRegions.Sought sought
            && hit(sought, mask, table.laterality().nasalSign(), swelling.get());
    return new ChangeOutcome(
        table.layer(), intervals, covering, called, lookedAt(regions), changed(regions), hit);
  }

  private static double lookedAt(ChangeRegions regions) {
    return regions instanceof ChangeRegions.Sought sought ? sought.lookedAtMm2() : 0;
  }

  private static double changed(ChangeRegions regions) {
    return regions instanceof ChangeRegions.Sought sought ? sought.changedMm2() : 0;
  }

  private static boolean hit(
      ChangeRegions.Sought sought, ChangeMask mask, int nasalSign, Place place) {
    for (int row = 0; row < mask.lattice().rows(); row++) {
      for (int column = 0; column < mask.lattice().columns(); column++) {
        int number = mask.region(row, column);
        double nasal = nasalSign * mask.lattice().xMm(column) - place.nasalMm();
        double superior = -mask.lattice().yMm(row) - place.superiorMm();
        if (number > 0
            && sought.regions().get(number - 1).thicker()
            && Math.hypot(nasal, superior) <= HIT_MM) {
          return true;
        }
      }
    }
    return false;
  }
}
