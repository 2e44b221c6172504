package org.isopach.analysis.nerve;

import java.util.Arrays;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.MapLattice;

/**
 * Which cells of a lattice lie in which spoke of an annulus, and with how much of their area: the
 * share of 6 x 6 sub-cells whose middle lies there; none lies on the axes of a centred lattice.
 *
 * <p>Listed by spoke, in a spoke row by row from the top and in each row from temporal to nasal, so
 * that mirrored eyes add the same numbers in the same order.
 */
final class AnnulusWeights {
  private static final int CUTS = 6;

  private final GanglionGrid grid;
  private final MapLattice lattice;
  private final int sign;
  private final AngleZero zero;

  private int[] cells = new int[1024];
  private int[] spokes = new int[1024];
  private double[] areas = new double[1024];
  private int size;
  private final int[] starts = new int[GanglionGrid.SPOKES + 1];

  private AnnulusWeights(
      GanglionGrid grid, MapLattice lattice, Laterality laterality, AngleZero zero) {
    this.grid = grid;
    this.lattice = lattice;
    this.sign = -laterality.nasalSign();
    this.zero = zero;
  }

  static AnnulusWeights of(
      GanglionGrid grid, MapLattice lattice, Laterality laterality, AngleZero zero) {
    AnnulusWeights weights = new AnnulusWeights(grid, lattice, laterality, zero);
    int[] counts = new int[GanglionGrid.SPOKES];
    for (int row = 0; row < lattice.rows(); row++) {
      for (int step = 0; step < lattice.columns(); step++) {
        int column = weights.sign < 0 ? step : lattice.columns() - 1 - step;
        weights.addCell(row, column, counts);
      }
    }
    weights.groupBySpoke();
    return weights;
  }

  private void addCell(int row, int column, int[] counts) {
    double temporal = sign * lattice.xMm(column);
    double superior = -lattice.yMm(row);
    double spare = lattice.stepMm();
    if (Math.abs(temporal) > grid.outerHorizontalMm() + spare
        || Math.abs(superior) > grid.outerVerticalMm() + spare) {
      return;
    }
    int inside = 0;
    for (int i = 0; i < CUTS * CUTS; i++) {
      double t = temporal + ((i % CUTS + 0.5) / CUTS - 0.5) * lattice.stepMm();
      double s = superior + ((Math.floorDiv(i, CUTS) + 0.5) / CUTS - 0.5) * lattice.stepMm();
      if (grid.contains(t, s)) {
        counts[spokeOf(t, s)]++;
        inside++;
      }
    }
    for (int spoke = 0; inside > 0 && spoke < counts.length; spoke++) {
      if (counts[spoke] > 0) {
        add(row * lattice.columns() + column, spoke, counts[spoke]);
        counts[spoke] = 0;
      }
    }
  }

  private int spokeOf(double temporal, double superior) {
    double degrees = zero.ofHorizontal(Math.toDegrees(Math.atan2(superior, temporal)));
    return (int) (degrees * GanglionGrid.SPOKES / DiscAngle.FULL_TURN) % GanglionGrid.SPOKES;
  }

  private void add(int cell, int spoke, int count) {
    if (size == cells.length) {
      cells = Arrays.copyOf(cells, 2 * size);
      spokes = Arrays.copyOf(spokes, 2 * size);
      areas = Arrays.copyOf(areas, 2 * size);
    }
    cells[size] = cell;
    spokes[size] = spoke;
    areas[size++] = lattice.cellAreaMm2() * count / (CUTS * CUTS);
  }

  /** Puts the pairs of a spoke side by side, in the order they were found. */
  private void groupBySpoke() {
    for (int i = 0; i < size; i++) {
      starts[spokes[i] + 1]++;
    }
    for (int spoke = 0; spoke < GanglionGrid.SPOKES; spoke++) {
      starts[spoke + 1] += starts[spoke];
    }
    int[] next = Arrays.copyOf(starts, GanglionGrid.SPOKES);
    int[] groupedCells = new int[size];
    double[] groupedAreas = new double[size];
    for (int i = 0; i < size; i++) {
      int to = next[spokes[i]]++;
      groupedCells[to] = cells[i];
      groupedAreas[to] = areas[i];
    }
    cells = groupedCells;
    areas = groupedAreas;
    spokes = new int[0];
  }

  /** Returns the first index of a spoke's pairs; that of the number of spokes is the end. */
  int start(int spoke) {
    return starts[spoke];
  }

  int cell(int index) {
    return cells[index];
  }

  double areaMm2(int index) {
    return areas[index];
  }
}
