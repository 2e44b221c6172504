package org.isopach.analysis.cross;

import org.isopach.analysis.map.MapLattice;

/**
 * Reads somebody's map at the cells of a lattice: linear between the centres of the four pixels
 * around a cell's centre, the outermost pixel's own value in its outer half. No value where one of
 * the pixels that count has none, or outside the map.
 */
public final class FieldResampler {
  /** A pixel with less of the weight does not count; keeps equal lattices from mixing. Ours. */
  private static final double LEAST_WEIGHT = 1e-4;

  private FieldResampler() {}

  /**
   * Returns the values of the lattice's cells, index {@code row * columns + column}.
   *
   * @param values the map
   * @param place where its pixels lie, seen from the lattice's (0, 0)
   */
  public static float[] onto(MapLattice lattice, FieldValues values, FieldPlace place) {
    float[] cells = new float[lattice.cells()];
    for (int row = 0; row < lattice.rows(); row++) {
      double y = lattice.yMm(row);
      for (int column = 0; column < lattice.columns(); column++) {
        double x = lattice.xMm(column);
        cells[row * lattice.columns() + column] = at(values, place.row(x, y), place.column(x, y));
      }
    }
    return cells;
  }

  private static float at(FieldValues values, double row, double column) {
    if (!(row >= -0.5 && row <= values.rows() - 0.5)
        || !(column >= -0.5 && column <= values.columns() - 0.5)) {
      return Float.NaN;
    }
    double inRow = Math.min(Math.max(row, 0), values.rows() - 1);
    double inColumn = Math.min(Math.max(column, 0), values.columns() - 1);
    int r = (int) inRow;
    int c = (int) inColumn;
    double down = share(inRow - r);
    double across = share(inColumn - c);
    double upper = between(values, r, c, across);
    double mixed = upper;
    if (down == 1) {
      mixed = between(values, r + 1, c, across);
    } else if (down > 0) {
      mixed = upper + down * (between(values, r + 1, c, across) - upper);
    }
    return (float) mixed;
  }

  private static double between(FieldValues values, int row, int column, double across) {
    double left = values.at(row, column);
    if (across == 0) {
      return left;
    }
    double right = values.at(row, column + 1);
    return across == 1 ? right : left + across * (right - left);
  }

  private static double share(double fraction) {
    if (fraction < LEAST_WEIGHT) {
      return 0;
    }
    return fraction > 1 - LEAST_WEIGHT ? 1 : fraction;
  }
}
