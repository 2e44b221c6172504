package org.isopach.analysis.change;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.RealDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.isopach.analysis.change.ChangeUncertainty.Given;
import org.isopach.analysis.change.ChangeUncertainty.NotGiven;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.stat.FalseDiscovery;

/**
 * Says how sure a change is: an interval for each sector, regions beyond noise in the map. The
 * definitions are in {@code docs/measurements.md}. Safe for use by several threads.
 */
public final class ChangeJudge {
  private static final double UPPER = 0.975;
  private static final double ANY_COVERAGE = 1e-9;

  private final SectorTabulator tabulator;
  private final ChangeRegionFinder finder = new ChangeRegionFinder();

  /** Makes a judge that measures sectors with the given tabulator. */
  public ChangeJudge(SectorTabulator tabulator) {
    this.tabulator = Objects.requireNonNull(tabulator, "tabulator");
  }

  /**
   * A change with all that is known of its error.
   *
   * @param table with an uncertainty for every measured sector
   * @param regions where the map is beyond noise
   * @param mask the same cell by cell
   */
  public record Judged(ChangeTable table, ChangeRegions regions, ChangeMask mask) {}

  /** Returns the change of two visits in one layer, judged by the noise of that layer. */
  public Judged judge(RepeatPair visits, RepeatNoise noise) {
    DifferenceMap map = visits.compared().map();
    ChangeTable table = visits.compared().table();
    Map<String, Double> place =
        PlaceEffect.varianceUm2(map.followUp(), table.grid(), tabulator, visits.placeSdMm());
    Map<String, Double> spread = spread(map, table.grid());
    List<SectorChange> judged = new ArrayList<>();
    for (SectorChange change : table.sectors()) {
      judged.add(
          change instanceof MeasuredChange measured
              ? measured.with(uncertainty(measured, visits, noise, place, spread))
              : change);
    }
    ChangeRegionFinder.Found found = finder.find(visits, noise);
    return new Judged(table.with(adjusted(judged)), found.regions(), found.mask());
  }

  /** Returns the standard deviation of the change from cell to cell in each sector, in µm. */
  private Map<String, Double> spread(DifferenceMap map, SectorGrid grid) {
    ThicknessMap like = map.baseline();
    ThicknessMap difference =
        new ThicknessMap(
            like.layer(),
            like.laterality(),
            like.lattice(),
            like.centre(),
            like.scan(),
            like.document(),
            map.values());
    Map<String, Double> spread = new LinkedHashMap<>();
    for (SectorResult one : tabulator.tabulate(difference, grid, ANY_COVERAGE).sectors()) {
      if (one instanceof Measured measured) {
        spread.put(measured.sector(), measured.sdUm());
      }
    }
    return spread;
  }

  private static ChangeUncertainty uncertainty(
      MeasuredChange change,
      RepeatPair visits,
      RepeatNoise known,
      Map<String, Double> place,
      Map<String, Double> spread) {
    String sector = change.sector();
    Optional<SectorNoise> noise = known.sector(sector);
    if (noise.isEmpty()) {
      return new NotGiven(known.gap().isEmpty() ? "no noise is known here" : known.gap());
    }
    Double moved = place.get(sector);
    if (moved == null) {
      return new NotGiven("too little of the sector is covered to say what a shift would do");
    }
    double missing = (1 - change.coveredFraction()) * spread.getOrDefault(sector, 0.0);
    double variance = noise.get().sdUm() * noise.get().sdUm();
    double factors =
        factor(visits.firstDoubt().get(sector), noise.get().doubtUm2())
            + factor(visits.secondDoubt().get(sector), noise.get().doubtUm2());
    ChangeUncertainty.Terms terms =
        new ChangeUncertainty.Terms(
            2 * variance,
            variance * (factors - 2),
            Math.max(0, moved - noise.get().placeVarianceUm2()),
            missing * missing);
    return terms.sum() > 0
        ? interval(change.changeUm(), terms, noise.get())
        : new NotGiven("the repeats do not differ at all, so that they tell nothing of noise");
  }

  /** Returns by how much a scan's variance exceeds that of the repeats; 1 where not known. */
  static double factor(Double doubt, double doubtOfRepeats) {
    return doubt == null || doubtOfRepeats == 0 ? 1 : Math.max(1, doubt / doubtOfRepeats);
  }

  /** Welch and Satterthwaite: only the variance of the repeats is estimated, the rest is known. */
  private static Given interval(double changeUm, ChangeUncertainty.Terms terms, SectorNoise noise) {
    double variance = terms.sum();
    double estimated = terms.repeats() + terms.doubt();
    double ratio = variance / estimated;
    double df = estimated > 0 ? noise.degreesOfFreedom() * ratio * ratio : Double.POSITIVE_INFINITY;
    RealDistribution distribution = student(df);
    double sd = Math.sqrt(variance);
    double half = distribution.inverseCumulativeProbability(UPPER) * sd;
    double p = 2 * distribution.cumulativeProbability(-Math.abs(changeUm) / sd);
    return new Given(sd, df, changeUm - half, changeUm + half, Math.min(1, p), 1, terms, noise);
  }

  /** Returns Student's distribution; the normal one for infinite degrees of freedom. */
  static RealDistribution student(double degreesOfFreedom) {
    return Double.isInfinite(degreesOfFreedom) || degreesOfFreedom > 1e6
        ? new NormalDistribution(null, 0, 1)
        : new TDistribution(null, degreesOfFreedom);
  }

  /** All sectors of the layer that have a p-value, the total among them, are one family. */
  private static List<SectorChange> adjusted(List<SectorChange> judged) {
    List<SectorChange> changes = new ArrayList<>(judged);
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < changes.size(); i++) {
      if (given(changes.get(i)).isPresent()) {
        places.add(i);
      }
    }
    double[] p =
        places.stream().mapToDouble(i -> given(changes.get(i)).orElseThrow().p()).toArray();
    double[] adjusted = FalseDiscovery.benjaminiHochberg(p);
    for (int k = 0; k < p.length; k++) {
      MeasuredChange change = (MeasuredChange) changes.get(places.get(k));
      Given given = given(change).orElseThrow();
      changes.set(places.get(k), change.with(given.adjusted(adjusted[k])));
    }
    return changes;
  }

  private static Optional<Given> given(SectorChange change) {
    return change instanceof MeasuredChange measured
            && measured.uncertainty() instanceof Given given
        ? Optional.of(given)
        : Optional.empty();
  }
}
