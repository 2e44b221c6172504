package org.isopach.analysis.nerve;

import java.util.Locale;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.stat.WeightedSummary;

/** The thickness of one map in runs of neighbouring spokes, and across the midline. */
final class AnnulusParts {
  /** Sub-cells reproduce an area within this; below, the lattice does not hold the part. */
  private static final double SUBCELL_PRECISION = 0.005;

  private final ThicknessMap map;
  private final GanglionGrid grid;
  private final AngleZero zero;
  private final AnnulusWeights weights;
  private final double minimumCoverage;

  AnnulusParts(
      ThicknessMap map,
      GanglionGrid grid,
      AngleZero zero,
      AnnulusWeights weights,
      double minimumCoverage) {
    this.map = map;
    this.grid = grid;
    this.zero = zero;
    this.weights = weights;
    this.minimumCoverage = minimumCoverage;
  }

  /** Returns the thickness of some spokes. */
  SectorResult part(String name, int fromSpoke, int count) {
    int start = weights.start(fromSpoke);
    int end = weights.start(fromSpoke + count);
    double[] values = new double[end - start];
    double[] areas = new double[end - start];
    double onLattice = 0;
    double covered = 0;
    int found = 0;
    for (int i = start; i < end; i++) {
      onLattice += weights.areaMm2(i);
      double value = value(weights.cell(i));
      if (!Double.isNaN(value)) {
        values[found] = value;
        areas[found++] = weights.areaMm2(i);
        covered += weights.areaMm2(i);
      }
    }
    double area = area(fromSpoke, count);
    double fraction = Math.min(1, covered / denominator(onLattice, area));
    if (found == 0 || fraction < minimumCoverage) {
      return refuse(name, area, fraction);
    }
    WeightedSummary summary = WeightedSummary.of(values, areas, found);
    return new Measured(
        name, summary.mean(), summary.populationSd(), summary.min(), summary.max(), area, fraction);
  }

  /** Returns the mean of the upper half against that of the lower. */
  MidlineResult halves() {
    int half = GanglionGrid.SPOKES / 2;
    SectorResult superior = part("superior half", 0, half);
    SectorResult inferior = part("inferior half", half, half);
    double fraction = (superior.coveredFraction() + inferior.coveredFraction()) / 2;
    if (superior instanceof Measured above && inferior instanceof Measured below) {
      return new MidlineDifference(above.meanUm(), below.meanUm(), fraction);
    }
    SectorResult lacking = superior instanceof Measured ? inferior : superior;
    return new MidlineMissing(
        fraction, lacking.sector() + ": " + ((NotMeasurable) lacking).detail());
  }

  /** Returns the upper half against its mirror image, where both have a value. */
  MidlineResult mirrored() {
    LatticeSampler sampler = new LatticeSampler(map.lattice(), map::micrometres);
    double turn = Math.toRadians(2 * -zero.foveaDiscDegrees());
    double cos = Math.cos(turn);
    double sin = Math.sin(turn);
    int sign = -map.laterality().nasalSign();
    double onLattice = 0;
    double covered = 0;
    double above = 0;
    double below = 0;
    for (int i = 0; i < weights.start(GanglionGrid.SPOKES / 2); i++) {
      double area = weights.areaMm2(i);
      onLattice += area;
      int columns = map.lattice().columns();
      double t = sign * map.lattice().xMm(weights.cell(i) % columns);
      double s = -map.lattice().yMm(weights.cell(i) / columns);
      double here = value(weights.cell(i));
      double there = sampler.at(sign * (t * cos + s * sin), -(t * sin - s * cos));
      if (!Double.isNaN(here) && !Double.isNaN(there)) {
        covered += area;
        above += area * here;
        below += area * there;
      }
    }
    double half = area(0, GanglionGrid.SPOKES / 2);
    double fraction = Math.min(1, covered / denominator(onLattice, half));
    return fraction < minimumCoverage
        ? new MidlineMissing(fraction, words(fraction, "of the upper half and its mirror image"))
        : new MidlineDifference(above / covered, below / covered, fraction);
  }

  private double value(int cell) {
    return map.micrometres(cell / map.lattice().columns(), cell % map.lattice().columns());
  }

  private double area(int fromSpoke, int count) {
    double step = DiscAngle.FULL_TURN / GanglionGrid.SPOKES;
    double from = fromSpoke * step - zero.foveaDiscDegrees();
    return grid.areaMm2(from, from + count * step);
  }

  private static double denominator(double onLattice, double area) {
    return onLattice >= (1 - SUBCELL_PRECISION) * area ? onLattice : area;
  }

  private NotMeasurable refuse(String name, double area, double fraction) {
    boolean empty = fraction == 0;
    return new NotMeasurable(
        name,
        empty ? NotMeasurable.Reason.OUTSIDE_SCAN : NotMeasurable.Reason.LOW_COVERAGE,
        area,
        fraction,
        empty ? "no thickness anywhere in it" : words(fraction, "of it"));
  }

  private String words(double fraction, String what) {
    return String.format(
        Locale.ROOT,
        "%.1f %% %s has a thickness, %.1f %% are needed",
        100 * fraction,
        what,
        100 * minimumCoverage);
  }
}
