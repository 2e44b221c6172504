package org.isopach.analysis.change;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.distribution.RealDistribution;
import org.isopach.analysis.change.ChangeRegions.NotSought;
import org.isopach.analysis.change.ChangeRegions.Sought;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.stat.FalseDiscovery;

/**
 * Finds the regions of a difference map that are beyond noise: the map is smoothed, each cell of
 * the grid's sectors gets a p-value, Benjamini and Hochberg decide over all of them at once, and
 * cells of one sign that touch by their sides make a region.
 */
final class ChangeRegionFinder {
  private final SectorCells cells = new SectorCells();

  record Found(ChangeRegions regions, ChangeMask mask) {}

  /** Returns the regions, or why none were looked for. */
  Found find(RepeatPair visits, RepeatNoise noise) {
    DifferenceMap map = visits.compared().map();
    if (noise.points().isEmpty()) {
      String why = noise.gap().isEmpty() ? "no noise of points is known" : noise.gap();
      return new Found(new NotSought(why), ChangeMask.empty(map.lattice()));
    }
    PointNoise points = noise.points().get();
    float[] smooth = SmoothMap.of(map.values(), map.lattice(), points.smoothingMm());
    double[] z = scores(visits, points, smooth);
    int tests = 0;
    for (double one : z) {
      tests += Double.isNaN(one) ? 0 : 1;
    }
    int[] signs = beyond(z, tests, points.tailDegrees());
    return collect(map, smooth, signs, points, tests);
  }

  /** Returns each cell's change in standard deviations, NaN where it is not judged. */
  private double[] scores(RepeatPair visits, PointNoise points, float[] smooth) {
    DifferenceMap map = visits.compared().map();
    MapLattice lattice = map.lattice();
    List<Sector> sectors = visits.compared().table().grid().sectors();
    int[] sector = cells.of(lattice, visits.compared().table().grid(), map.baseline().laterality());
    float[] slope =
        PlaceEffect.squaredSlope(
            SmoothMap.of(map.baselineValues(), lattice, points.smoothingMm()), lattice);
    double placeVariance = visits.placeSdMm() * visits.placeSdMm();
    double[] z = new double[smooth.length];
    for (int i = 0; i < z.length; i++) {
      z[i] = Double.NaN;
      PointNoise.Spot spot =
          sector[i] == SectorCells.OUTSIDE
              ? null
              : points.spots().get(sectors.get(sector[i]).name());
      if (spot != null && !Float.isNaN(smooth[i])) {
        String name = sectors.get(sector[i]).name();
        double moved = Float.isNaN(slope[i]) ? 0 : placeVariance * slope[i];
        double variance = spot.netVarianceUm2() * factors(visits, name, spot) / 2 + moved;
        z[i] = variance > 0 ? smooth[i] / Math.sqrt(variance) : Double.NaN;
      }
    }
    return z;
  }

  private static double factors(RepeatPair visits, String sector, PointNoise.Spot spot) {
    Map<String, Double> first = visits.firstDoubt();
    Map<String, Double> second = visits.secondDoubt();
    return ChangeJudge.factor(first.get(sector), spot.doubtUm2())
        + ChangeJudge.factor(second.get(sector), spot.doubtUm2());
  }

  /** Returns the sign of the change of each cell that is beyond noise, 0 for all others. */
  private static int[] beyond(double[] z, int tests, double tail) {
    RealDistribution distribution = ChangeJudge.student(tail);
    double unit = Double.isInfinite(tail) ? 1 : Math.sqrt(tail / (tail - 2));
    double least = -distribution.inverseCumulativeProbability(Sought.LEVEL / 2) / unit;
    double[] p = new double[tests];
    int at = 0;
    for (double one : z) {
      if (!Double.isNaN(one)) {
        // A p-value above the level is never rejected: what it is exactly does not matter.
        p[at++] =
            Math.abs(one) < least
                ? 1
                : Math.min(1, 2 * distribution.cumulativeProbability(-Math.abs(one) * unit));
      }
    }
    double[] adjusted = FalseDiscovery.benjaminiHochberg(p);
    int[] signs = new int[z.length];
    at = 0;
    for (int i = 0; i < z.length; i++) {
      if (!Double.isNaN(z[i]) && adjusted[at++] <= Sought.LEVEL) {
        signs[i] = z[i] > 0 ? 1 : -1;
      }
    }
    return signs;
  }

  private static Found collect(
      DifferenceMap map, float[] smooth, int[] signs, PointNoise points, int tests) {
    MapLattice lattice = map.lattice();
    List<Patch> patches = new ArrayList<>();
    boolean[] taken = new boolean[signs.length];
    for (int i = 0; i < signs.length; i++) {
      if (signs[i] != 0 && !taken[i]) {
        Patch patch = Patch.from(i, signs, taken, lattice.columns());
        if (patch.cells().size() * lattice.cellAreaMm2() >= points.minimumAreaMm2()) {
          patches.add(patch);
        }
      }
    }
    patches.sort(Comparator.comparingInt((Patch patch) -> -patch.cells().size()));
    int[] numbers = new int[signs.length];
    List<ChangeRegion> regions = new ArrayList<>();
    for (Patch patch : patches) {
      int number = regions.size() + 1;
      patch.cells().forEach(cell -> numbers[cell] = number);
      regions.add(patch.region(number, map, smooth));
    }
    double area = tests * lattice.cellAreaMm2();
    return new Found(
        new Sought(regions, area, points.minimumAreaMm2(), points),
        new ChangeMask(lattice, numbers));
  }
}
