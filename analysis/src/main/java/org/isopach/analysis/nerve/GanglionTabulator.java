package org.isopach.analysis.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;

/**
 * Measures maps of the macula's inner layers in an elliptical annulus, as docs/measurements.md,
 * "Macular ganglion cells" defines it. Keeps the weights of a lattice. Safe for several threads.
 */
public final class GanglionTabulator {
  /** The share of a sector, spoke or half that must have values; ours. */
  public static final double DEFAULT_MINIMUM_COVERAGE = 0.90;

  private static final int MOST_KEPT = 16;

  private record Key(GanglionGrid grid, MapLattice lattice, Laterality eye, AngleZero zero) {}

  private final Map<Key, AnnulusWeights> kept = new ConcurrentHashMap<>();

  /**
   * Returns sectors, annulus, minimum and asymmetry of a map.
   *
   * @param map thickness in µm, its lattice's (0, 0) the fovea
   * @param grid the annulus
   * @param zero horizontal, or turned to the line from fovea to disc
   */
  public GanglionTable tabulate(ThicknessMap map, GanglionGrid grid, AngleZero zero) {
    AnnulusWeights weights = weights(new Key(grid, map.lattice(), map.laterality(), zero));
    AnnulusParts parts = new AnnulusParts(map, grid, zero, weights, DEFAULT_MINIMUM_COVERAGE);
    int each = GanglionGrid.SPOKES / GanglionGrid.SECTORS.size();
    List<SectorResult> sectors = new ArrayList<>();
    for (int k = 0; k < GanglionGrid.SECTORS.size(); k++) {
      sectors.add(parts.part(GanglionGrid.SECTORS.get(k), k * each, each));
    }
    List<SectorResult> spokes = new ArrayList<>();
    for (int k = 0; k < GanglionGrid.SPOKES; k++) {
      spokes.add(parts.part(GanglionTable.MINIMUM, k, 1));
    }
    int least = least(spokes);
    double step = DiscAngle.FULL_TURN / GanglionGrid.SPOKES;
    SectorResult minimum = minimum(spokes, least, grid);
    return new GanglionTable(
        map.layer(),
        grid,
        map.laterality(),
        map.centre(),
        map.scan(),
        zero,
        sectors,
        annulus(sectors, parts),
        minimum,
        minimum instanceof Measured
            ? OptionalDouble.of((least + 0.5) * step)
            : OptionalDouble.empty(),
        parts.halves(),
        parts.mirrored());
  }

  private static SectorResult annulus(List<SectorResult> sectors, AnnulusParts parts) {
    SectorResult all = parts.part(GanglionGrid.ANNULUS, 0, GanglionGrid.SPOKES);
    long missing = sectors.stream().filter(NotMeasurable.class::isInstance).count();
    return missing == 0
        ? all
        : new NotMeasurable(
            GanglionGrid.ANNULUS,
            NotMeasurable.Reason.INCOMPLETE_GRID,
            all.areaMm2(),
            all.coveredFraction(),
            missing + " of " + sectors.size() + " sectors could not be measured");
  }

  /** Returns the first spoke of the least mean, -1 when none was measured. */
  private static int least(List<SectorResult> spokes) {
    int least = -1;
    double mean = Double.POSITIVE_INFINITY;
    for (int k = 0; k < spokes.size(); k++) {
      if (spokes.get(k) instanceof Measured measured && measured.meanUm() < mean) {
        mean = measured.meanUm();
        least = k;
      }
    }
    return least;
  }

  private static SectorResult minimum(List<SectorResult> spokes, int least, GanglionGrid grid) {
    long found = spokes.stream().filter(Measured.class::isInstance).count();
    double fraction = (double) found / spokes.size();
    if (fraction >= DEFAULT_MINIMUM_COVERAGE) {
      return spokes.get(least);
    }
    return new NotMeasurable(
        GanglionTable.MINIMUM,
        found == 0 ? NotMeasurable.Reason.OUTSIDE_SCAN : NotMeasurable.Reason.LOW_COVERAGE,
        grid.areaMm2(0, DiscAngle.FULL_TURN) / spokes.size(),
        fraction,
        String.format(
            Locale.ROOT,
            "%d of %d spokes could be measured; a thinner one may be among the others",
            found,
            spokes.size()));
  }

  private AnnulusWeights weights(Key key) {
    if (kept.size() > MOST_KEPT) {
      kept.clear();
    }
    return kept.computeIfAbsent(
        key, k -> AnnulusWeights.of(k.grid(), k.lattice(), k.eye(), k.zero()));
  }
}
