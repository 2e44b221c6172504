package org.isopach.analysis.grid;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.stat.WeightedSummary;

/**
 * Measures maps in the sectors of a grid.
 *
 * <p>Every cell counts with the exact area it has in common with a sector. The weights of a lattice
 * and grid are computed once and kept. Safe for use by several threads.
 */
public final class SectorTabulator {
  /**
   * The share of a sector that must have values unless told otherwise. A working gate of ours, not
   * a published limit.
   */
  public static final double DEFAULT_MINIMUM_COVERAGE = 0.90;

  /** The name of the result at the landmark. */
  public static final String CENTRE_POINT = "centre-point";

  private static final Sector CENTRE_DISC = Sector.disc(CENTRE_POINT, 0.05);
  private static final int MOST_KEPT = 64;

  private record Key(MapLattice lattice, Sector sector, Laterality laterality) {}

  private final Map<Key, SectorWeights> kept = new ConcurrentHashMap<>();

  /**
   * Returns the results of all sectors, their total and the centre point.
   *
   * @param map thickness in µm, NaN where none; its lattice's (0, 0) is the grid's centre
   * @param grid the sectors
   * @param minimumCoverage share of a sector's area, above 0 and up to 1, that must have values
   */
  public SectorTable tabulate(ThicknessMap map, SectorGrid grid, double minimumCoverage) {
    if (!(minimumCoverage > 0 && minimumCoverage <= 1)) {
      throw new IllegalArgumentException(
          "minimumCoverage must be above 0 and at most 1, was " + minimumCoverage);
    }
    List<SectorResult> results = new ArrayList<>();
    for (Sector sector : grid.sectors()) {
      results.add(measure(map, sector, minimumCoverage));
    }
    results.add(GridTotal.of(results));
    return new SectorTable(
        map.layer(),
        grid,
        map.laterality(),
        map.centre(),
        map.scan(),
        minimumCoverage,
        results,
        measure(map, CENTRE_DISC, minimumCoverage));
  }

  private SectorResult measure(ThicknessMap map, Sector sector, double minimumCoverage) {
    SectorWeights weights = weights(map.lattice(), map.laterality(), sector);
    double[] values = new double[weights.size()];
    double[] areas = new double[weights.size()];
    int columns = map.lattice().columns();
    int found = 0;
    double covered = 0;
    for (int i = 0; i < weights.size(); i++) {
      float value = map.micrometres(weights.cell(i) / columns, weights.cell(i) % columns);
      if (!Float.isNaN(value)) {
        values[found] = value;
        areas[found++] = weights.areaMm2(i);
        covered += weights.areaMm2(i);
      }
    }
    double fraction = weights.fraction(covered);
    if (found == 0 || fraction < minimumCoverage) {
      return refuse(sector, fraction, minimumCoverage);
    }
    WeightedSummary summary = WeightedSummary.of(values, areas, found);
    return new Measured(
        sector.name(),
        summary.mean(),
        summary.populationSd(),
        summary.min(),
        summary.max(),
        sector.areaMm2(),
        fraction);
  }

  /**
   * Returns the integral over a sector of what a lattice holds.
   *
   * @param values index {@code row * columns + column}, NaN where none
   * @param lattice whose (0, 0) is the sector's landmark
   */
  public SectorIntegral integrate(
      float[] values, MapLattice lattice, Laterality laterality, Sector sector) {
    SectorWeights weights = weights(lattice, laterality, sector);
    double sum = 0;
    double covered = 0;
    for (int i = 0; i < weights.size(); i++) {
      float value = values[weights.cell(i)];
      if (!Float.isNaN(value)) {
        sum += value * weights.areaMm2(i);
        covered += weights.areaMm2(i);
      }
    }
    return new SectorIntegral(sum, weights.fraction(covered));
  }

  private static NotMeasurable refuse(Sector sector, double fraction, double minimumCoverage) {
    boolean empty = fraction == 0;
    String detail =
        empty
            ? "no thickness anywhere in the sector"
            : String.format(
                Locale.ROOT,
                "%.1f %% of the sector has a thickness, %.1f %% are needed",
                100 * fraction,
                100 * minimumCoverage);
    return new NotMeasurable(
        sector.name(),
        empty ? NotMeasurable.Reason.OUTSIDE_SCAN : NotMeasurable.Reason.LOW_COVERAGE,
        sector.areaMm2(),
        fraction,
        detail);
  }

  private SectorWeights weights(MapLattice lattice, Laterality laterality, Sector sector) {
    if (kept.size() > MOST_KEPT) {
      kept.clear();
    }
    Key key = new Key(lattice, sector, laterality);
    return kept.computeIfAbsent(
        key, k -> SectorWeights.of(k.sector(), k.lattice(), k.laterality()));
  }
}
