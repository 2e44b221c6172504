package org.isopach.segment;

import ij.plugin.filter.GaussianBlur;
import ij.process.FloatProcessor;

/**
 * A strip of a frame that follows a reference line: row 0 of each column lies a constant distance
 * from the line, so that a boundary nearly parallel to it is nearly straight.
 *
 * <p>Values are scaled so that the frame's dark is 0 and its bright 1.
 */
final class BandPicture {
  private static final double ACCURACY = 0.02;

  private final int columns;
  private final int rows;
  private final float[] pixels;

  private BandPicture(int columns, int rows, float[] pixels) {
    this.columns = columns;
    this.rows = rows;
    this.pixels = pixels;
  }

  /**
   * Cuts a strip out of a frame.
   *
   * @param firstDepth depth in pixels of row 0 of each column; fractions are interpolated
   * @param rows number of rows
   * @param lateralSigma smoothing along the scan, in A-scans
   * @param depthSigma smoothing in depth, in pixels
   */
  static BandPicture cut(
      FrameView frame, float[] firstDepth, int rows, double lateralSigma, double depthSigma) {
    int columns = firstDepth.length;
    float[] pixels = new float[columns * rows];
    for (int c = 0; c < columns; c++) {
      frame.column(c, firstDepth[c], rows, pixels, columns);
    }
    FloatProcessor strip = new FloatProcessor(columns, rows, pixels);
    new GaussianBlur().blurGaussian(strip, lateralSigma, depthSigma, ACCURACY);
    return new BandPicture(columns, rows, (float[]) strip.getPixels());
  }

  /** Returns one value. */
  float value(int column, int row) {
    return pixels[row * columns + column];
  }

  /** Returns the number of A-scans. */
  int columns() {
    return columns;
  }

  /** Returns the number of rows. */
  int rows() {
    return rows;
  }

  /**
   * Returns how much brighter the {@code window} rows from each row on are than those before it;
   * index {@code column * rows + row}. The value of row r belongs to the border between rows r - 1
   * and r. Near the strip's ends the windows are cut; where one is empty the value is 0.
   */
  float[] rise(int window) {
    float[] rise = new float[columns * rows];
    double[] sums = new double[rows + 1];
    for (int c = 0; c < columns; c++) {
      for (int r = 0; r < rows; r++) {
        sums[r + 1] = sums[r] + pixels[r * columns + c];
      }
      for (int r = 1; r < rows; r++) {
        int a = Math.max(0, r - window);
        int b = Math.min(rows, r + window);
        double before = (sums[r] - sums[a]) / (r - a);
        double after = (sums[b] - sums[r]) / (b - r);
        rise[c * rows + r] = (float) (after - before);
      }
    }
    return rise;
  }
}
