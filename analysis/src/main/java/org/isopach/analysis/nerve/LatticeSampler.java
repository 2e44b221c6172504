package org.isopach.analysis.nerve;

import org.isopach.analysis.map.MapLattice;

/**
 * Reads a lattice between its cells' centres: bilinear in the four around a place, NaN where one
 * that counts has no value or the place lies beyond the outermost centres. Mirrored places of
 * mirrored lattices give the same bits.
 */
final class LatticeSampler {
  /** The values of the cells. */
  interface Cells {
    double at(int row, int column);
  }

  private final MapLattice lattice;
  private final Cells cells;

  LatticeSampler(MapLattice lattice, Cells cells) {
    this.lattice = lattice;
    this.cells = cells;
  }

  /** Returns the value at a place in mm from the lattice's origin. */
  double at(double xMm, double yMm) {
    double halfColumns = (lattice.columns() - 1) / 2.0;
    double halfRows = (lattice.rows() - 1) / 2.0;
    double u = (xMm - (lattice.firstXMm() + halfColumns * lattice.stepMm())) / lattice.stepMm();
    double v = (yMm - (lattice.firstYMm() + halfRows * lattice.stepMm())) / lattice.stepMm();
    if (!(Math.abs(u) <= halfColumns && Math.abs(v) <= halfRows)) {
      return Double.NaN;
    }
    double left = below(u, lattice.columns());
    double top = below(v, lattice.rows());
    int column = (int) Math.round(left + halfColumns);
    int row = (int) Math.round(top + halfRows);
    double upper = alongRow(row, column, u - left);
    double lower = v == top ? 0 : alongRow(row + 1, column, u - left);
    return v == top ? upper : (top + 1 - v) * upper + (v - top) * lower;
  }

  private double alongRow(int row, int column, double share) {
    double first = share == 1 ? 0 : cells.at(row, column);
    double second = share == 0 ? 0 : cells.at(row, column + 1);
    return (1 - share) * first + share * second;
  }

  private static double below(double place, int count) {
    double shift = count % 2 == 0 ? 0.5 : 0;
    return Math.floor(place - shift) + shift;
  }
}
