package org.isopach.segment;

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
   * Returns the mean of rows {@code from} to before {@code to} of a column, cut to the picture; 0
   * when nothing is left.
   */
  float mean(int column, int from, int to) {
    int a = Math.max(0, from);
    int b = Math.min(grid.rows(), to);
    if (b <= a) {
      return 0;
    }
    int base = column * (grid.rows() + 1);
    return (sums[base + b] - sums[base + a]) / (b - a);
  }
}
