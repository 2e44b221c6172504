package org.isopach.segment.tissue;

import ij.plugin.Binner;
import ij.process.FloatProcessor;
import java.util.Arrays;

/**
 * One frame on the tissue grid: block means scaled so that the frame's dark (20th percentile of the
 * cells) is 0 and its bright (98.5th) is 1, cut to -0.3..1.5.
 */
public final class TissuePicture {
  private static final double DARK_QUANTILE = 0.2;
  private static final double BRIGHT_QUANTILE = 0.985;
  private static final int SAMPLING = 19;
  private static final float LOWEST = -0.3f;
  private static final float HIGHEST = 1.5f;

  private final TissueGrid grid;
  private final float[] values;

  private TissuePicture(TissueGrid grid, float[] values) {
    this.grid = grid;
    this.values = values;
  }

  /**
   * Returns the picture of a frame.
   *
   * @param pixels grey values without margins, index {@code depth * ascans + ascan}; not kept
   */
  public static TissuePicture of(float[] pixels, int ascans, int depths, TissueGrid grid) {
    FloatProcessor full = new FloatProcessor(ascans, depths, pixels);
    float[] cells =
        (float[])
            new Binner()
                .shrink(full, grid.ascansPerCell(), grid.depthsPerCell(), Binner.AVERAGE)
                .convertToFloatProcessor()
                .getPixels();
    float[] sample = new float[(cells.length + SAMPLING - 1) / SAMPLING];
    for (int i = 0; i < sample.length; i++) {
      sample[i] = cells[i * SAMPLING];
    }
    Arrays.sort(sample);
    float dark = quantile(sample, DARK_QUANTILE);
    float scale = 1 / Math.max(quantile(sample, BRIGHT_QUANTILE) - dark, 1e-6f);
    float[] values = new float[cells.length];
    for (int i = 0; i < cells.length; i++) {
      values[i] = Math.min(HIGHEST, Math.max(LOWEST, (cells[i] - dark) * scale));
    }
    return new TissuePicture(grid, values);
  }

  private static float quantile(float[] sorted, double q) {
    return sorted[(int) Math.round(q * (sorted.length - 1))];
  }

  /** Returns the shape. */
  public TissueGrid grid() {
    return grid;
  }

  /** Returns the value of a cell. */
  public float value(int row, int column) {
    return values[row * grid.columns() + column];
  }

  /** Writes the values of one row into a buffer. */
  void copyRow(int row, float[] into, int at) {
    System.arraycopy(values, row * grid.columns(), into, at, grid.columns());
  }
}
