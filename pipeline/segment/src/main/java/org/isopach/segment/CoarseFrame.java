package org.isopach.segment;

import java.util.Arrays;

/**
 * One frame on the coarse grid, scaled so that the dark of the vitreous is 0 and the brightest
 * layers are near 1.
 *
 * <p>Sums over depth are kept, so that the mean of any run of rows takes one subtraction.
 */
final class CoarseFrame {
  private final CoarseGrid grid;
  private final float[] sums;

  /**
   * Makes a frame from scaled values.
   *
   * @param values index {@code column * rows + row}
   */
  CoarseFrame(CoarseGrid grid, float[] values) {
    this.grid = grid;
    int rows = grid.rows();
    this.sums = new float[grid.columns() * (rows + 1)];
    for (int c = 0; c < grid.columns(); c++) {
      float sum = 0;
      for (int r = 0; r < rows; r++) {
        sum += values[c * rows + r];
        sums[c * (rows + 1) + r + 1] = sum;
      }
    }
  }

  /** Returns the shape. */
  CoarseGrid grid() {
    return grid;
  }

  /**
   * Writes the running sums of a column: {@code into[r]} is the sum of the rows before r; behind
   * the last row the sum stays, as if all beyond the picture were dark.
   */
  void sums(int column, float[] into) {
    int base = column * (grid.rows() + 1);
    System.arraycopy(sums, base, into, 0, grid.rows() + 1);
    Arrays.fill(into, grid.rows() + 1, into.length, into[grid.rows()]);
  }
}
