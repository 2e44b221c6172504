package org.isopach.analysis.map;

/**
 * A regular lattice of square cells on the fundus, in mm from a landmark.
 *
 * <p>Cell {@code (row, column)}, both 0-based, row 0 at the top. Coordinates are those of cell
 * centres: x grows to the right, y down, the landmark at (0, 0).
 *
 * @param rows number of rows, at least 1
 * @param columns number of columns, at least 1
 * @param stepMm side of a cell in mm, positive
 * @param firstXMm x of the centre of column 0
 * @param firstYMm y of the centre of row 0
 */
public record MapLattice(int rows, int columns, double stepMm, double firstXMm, double firstYMm) {
  public MapLattice {
    if (rows < 1 || columns < 1) {
      throw new IllegalArgumentException(
          "a lattice needs cells, was " + rows + " rows x " + columns + " columns");
    }
    if (!(stepMm > 0) || Double.isInfinite(stepMm)) {
      throw new IllegalArgumentException("stepMm must be finite and positive, was " + stepMm);
    }
    Math.multiplyExact(rows, columns);
  }

  /**
   * Returns a square lattice with a cell centred on the landmark, reaching at least {@code
   * halfWidthMm} to every side. Example: {@code centred(3.0, 0.02)} has 301 x 301 cells.
   */
  public static MapLattice centred(double halfWidthMm, double stepMm) {
    int half = (int) Math.ceil(halfWidthMm / stepMm - 1e-9);
    int n = 2 * half + 1;
    return new MapLattice(n, n, stepMm, -half * stepMm, -half * stepMm);
  }

  /**
   * Returns the x in mm of the centre of a column. Counted from the middle column, so that mirrored
   * columns of a centred lattice have exactly opposite coordinates.
   */
  public double xMm(int column) {
    return place(firstXMm, columns, column);
  }

  /** Returns the y in mm of the centre of a row; exactly opposite for mirrored rows, as above. */
  public double yMm(int row) {
    return place(firstYMm, rows, row);
  }

  /** Returns the number of cells. */
  public int cells() {
    return rows * columns;
  }

  /** Returns the area of one cell in mm². */
  public double cellAreaMm2() {
    return stepMm * stepMm;
  }

  private double place(double first, int count, int index) {
    double half = (count - 1) / 2.0;
    return (first + half * stepMm) + (index - half) * stepMm;
  }
}
