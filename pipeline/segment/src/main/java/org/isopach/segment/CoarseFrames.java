package org.isopach.segment;

import ij.plugin.Binner;
import ij.plugin.filter.GaussianBlur;
import ij.process.FloatProcessor;
import ij.process.ImageProcessor;

/**
 * Makes coarse pictures of frames with ImageJ: block averages, smoothed a little along the scan.
 */
final class CoarseFrames {
  private static final double LATERAL_SIGMA = 0.8;
  private static final double ACCURACY = 0.02;
  private static final float LOWEST = -0.3f;
  private static final float HIGHEST = 1.5f;

  private CoarseFrames() {}

  /**
   * Returns the block averages of a frame in grey units, index {@code row * columns + column}.
   *
   * @param picture grey values, index {@code depth * ascans + ascan}
   */
  static float[] averages(float[] picture, int ascans, int depths, CoarseGrid grid) {
    ImageProcessor full = new FloatProcessor(ascans, depths, picture);
    ImageProcessor small =
        new Binner().shrink(full, grid.ascansPerCell(), grid.depthsPerCell(), Binner.AVERAGE);
    FloatProcessor cells = small.convertToFloatProcessor();
    new GaussianBlur().blurGaussian(cells, LATERAL_SIGMA, 0, ACCURACY);
    return (float[]) cells.getPixels();
  }

  /** Returns a coarse frame scaled by the levels given; upside down when {@code flipped}. */
  static CoarseFrame scaled(float[] averages, GreyLevels levels, CoarseGrid grid, boolean flipped) {
    int columns = grid.columns();
    int rows = grid.rows();
    float[] values = new float[columns * rows];
    float scale = 1 / Math.max(levels.contrast(), 1e-6f);
    for (int r = 0; r < rows; r++) {
      int source = (flipped ? rows - 1 - r : r) * columns;
      for (int c = 0; c < columns; c++) {
        float value = (averages[source + c] - levels.dark()) * scale;
        values[c * rows + r] = Math.min(HIGHEST, Math.max(LOWEST, value));
      }
    }
    return new CoarseFrame(grid, values);
  }
}
