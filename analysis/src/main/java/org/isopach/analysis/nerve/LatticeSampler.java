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

  private static final double ROUNDING = 1e-9;

  private final MapLattice lattice;
  private final Cells cells;

  LatticeSampler(MapLattice lattice, Cells cells) {
    this.lattice = lattice;
    this.cells = cells;
  }

  /** Returns the value at a place in mm from the lattice's origin. */
  double at(double xMm, double yMm) {
    int columns = lattice.columns();
    int rows = lattice.rows();
    double u = fromMiddle(xMm, lattice.firstXMm(), columns);
    double v = fromMiddle(yMm, lattice.firstYMm(), rows);
    if (!(Math.abs(u) <= (columns - 1) / 2.0 && Math.abs(v) <= (rows - 1) / 2.0)) {
      return Double.NaN;
    }
    double left = below(u, columns);
    double top = below(v, rows);
    int column = (int) Math.round(left + (columns - 1) / 2.0);
    int row = (int) Math.round(top + (rows - 1) / 2.0);
    double upper = alongRow(row, column, left, u);
    return v == top
        ? upper
        : (top + 1 - v) * upper + (v - top) * alongRow(row + 1, column, left, u);
  }

  private double alongRow(int row, int column, double left, double u) {
    double first = cells.at(row, column);
    return u == left ? first : (left + 1 - u) * first + (u - left) * cells.at(row, column + 1);
  }

  /**
   * Returns a place in cells from the middle; one that is a cell's but for rounding is the cell's.
   */
  private double fromMiddle(double mm, double firstMm, int count) {
    double place = (mm - (firstMm + (count - 1) / 2.0 * lattice.stepMm())) / lattice.stepMm();
    double shift = shift(count);
    double nearest = Math.rint(place - shift) + shift;
    return Math.abs(place - nearest) < ROUNDING ? nearest : place;
  }

  private static double below(double place, int count) {
    double shift = shift(count);
    return Math.floor(place - shift) + shift;
  }

  /** Returns how far from the middle the centre of some cell lies, in cells. */
  private static double shift(int count) {
    return count % 2 == 0 ? 0.5 : 0;
  }
}
