package org.isopach.segment.tissue;

import java.util.Set;

/**
 * How probable each tissue is in each cell of a frame. Shape (tissue, row, column); a column of the
 * map lies at every second column of the {@link TissueGrid}. Probabilities are kept in steps of
 * 1/255; those of a cell sum to about 1.
 */
public final class TissueMap {
  private static final int STEP = 2;
  private static final float STEPS = 255;

  private final TissueGrid grid;
  private final int columns;
  private final int columnStride;
  private final int tissueStride;
  private final byte[] probabilities;

  /**
   * Makes a map around an array, which is kept.
   *
   * @param probabilities times 255, index {@code (tissue * columns + column) * rows + row}
   * @param columns columns of the array, padding included
   * @param rows rows of the array, padding included
   */
  TissueMap(TissueGrid grid, byte[] probabilities, int columns, int rows) {
    this.grid = grid;
    this.columns = (grid.columns() + STEP - 1) / STEP;
    this.columnStride = rows;
    this.tissueStride = columns * rows;
    this.probabilities = probabilities;
  }

  /** Returns the number of rows. */
  public int rows() {
    return grid.rows();
  }

  /** Returns the number of columns. */
  public int columns() {
    return columns;
  }

  /** Returns the probability of a tissue in a cell. */
  public float probability(Tissue tissue, int row, int column) {
    return (probabilities[at(tissue, column) + row] & 0xff) / STEPS;
  }

  /**
   * Adds the probabilities of a tissue in some rows of each column, times a factor, to a buffer.
   *
   * @param first first row of each column; rows outside of the map are left alone
   * @param count number of rows
   * @param into index {@code column * count + row - first[column]}
   */
  public void add(Tissue tissue, float factor, int[] first, int count, float[] into) {
    float unit = factor / STEPS;
    for (int c = 0; c < columns; c++) {
      int from = at(tissue, c) + first[c];
      int to = c * count;
      int end = Math.min(count, grid.rows() - first[c]);
      for (int r = Math.max(0, -first[c]); r < end; r++) {
        into[to + r] += unit * (probabilities[from + r] & 0xff);
      }
    }
  }

  /** Returns for each column the expected number of its cells that hold one of some tissues. */
  public float[] sums(Set<Tissue> tissues) {
    float[] sums = new float[columns];
    for (Tissue tissue : tissues) {
      for (int c = 0; c < columns; c++) {
        int from = at(tissue, c);
        int sum = 0;
        for (int r = 0; r < grid.rows(); r++) {
          sum += probabilities[from + r] & 0xff;
        }
        sums[c] += sum / STEPS;
      }
    }
    return sums;
  }

  private int at(Tissue tissue, int column) {
    return tissue.index() * tissueStride + column * columnStride;
  }

  /** Returns the fractional column of an A-scan's centre, clamped to the map. */
  public double column(int ascan) {
    return Math.min(columns - 1.0, grid.column(ascan) / STEP);
  }

  /** Returns the depth in full-resolution pixels (0 = centre of the first) of a row's centre. */
  public double depthPx(double row) {
    return grid.depthPx(row);
  }

  /** Returns the row (fractional, 0 = centre of the first) of a depth in pixels. */
  public double row(double depthPx) {
    return grid.row(depthPx);
  }

  /** Returns the number of depth pixels in a row. */
  public int depthsPerRow() {
    return grid.depthsPerCell();
  }

  /** Returns the number of A-scans from one column to the next. */
  public int ascansPerColumn() {
    return grid.ascansPerCell() * STEP;
  }
}
