package org.isopach.segment;

import ij.plugin.filter.GaussianBlur;
import ij.process.FloatProcessor;

/**
 * A strip of a frame that follows a reference line: row 0 of each A-scan lies a constant distance
 * from the line, so that a boundary nearly parallel to it is nearly straight. Smoothed along the
 * scan; values are scaled so that the frame's dark is 0 and its bright 1.
 */
final class Strip {
  private static final double ACCURACY = 0.02;

  private final int columns;
  private final int rows;
  private final float[] firstDepth;
  private final float[] pixels;

  private Strip(int columns, int rows, float[] firstDepth, float[] pixels) {
    this.columns = columns;
    this.rows = rows;
    this.firstDepth = firstDepth;
    this.pixels = pixels;
  }

  /**
   * Cuts a strip out of a frame.
   *
   * @param line reference line, depth in pixels at each A-scan
   * @param from first row relative to the line, in pixels, may be negative and fractional
   * @param rows number of rows
   * @param sigma smoothing along the scan, in A-scans
   */
  static Strip cut(FrameView frame, float[] line, double from, int rows, double sigma) {
    int columns = line.length;
    float[] first = new float[columns];
    float[] pixels = new float[columns * rows];
    for (int c = 0; c < columns; c++) {
      first[c] = (float) (line[c] + from);
      frame.column(c, first[c], rows, pixels, columns);
    }
    if (sigma >= 0.3 && columns > 3) {
      FloatProcessor picture = new FloatProcessor(columns, rows, pixels);
      new GaussianBlur().blur1Direction(picture, sigma, ACCURACY, true, 0);
      picture.resetMinAndMax();
    }
    return new Strip(columns, rows, first, pixels);
  }

  /** Returns the number of A-scans. */
  int columns() {
    return columns;
  }

  /** Returns the number of rows. */
  int rows() {
    return rows;
  }

  /** Returns the depth in pixels of row 0 of an A-scan. */
  float firstDepth(int column) {
    return firstDepth[column];
  }

  /** Returns the value at a fractional row of an A-scan, the end rows repeated beyond the strip. */
  float at(int column, float row) {
    if (row <= 0) {
      return pixels[column];
    }
    if (row >= rows - 1) {
      return pixels[(rows - 1) * columns + column];
    }
    int whole = (int) row;
    float above = pixels[whole * columns + column];
    float below = pixels[(whole + 1) * columns + column];
    return above + (row - whole) * (below - above);
  }

  /** Writes the running sums of an A-scan: {@code sums[r]} is the sum of the rows before r. */
  void sums(int column, double[] sums) {
    double sum = 0;
    sums[0] = 0;
    for (int r = 0; r < rows; r++) {
      sum += pixels[r * columns + column];
      sums[r + 1] = sum;
    }
  }
}
