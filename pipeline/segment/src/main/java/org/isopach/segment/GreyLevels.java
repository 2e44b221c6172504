package org.isopach.segment;

import java.util.Arrays;

/**
 * The dark and the bright of one frame, in grey units.
 *
 * @param dark the level of the vitreous and of empty depth
 * @param bright the level of the brightest layers, averaged over about 8 µm
 */
record GreyLevels(float dark, float bright) {
  private static final double DARK_QUANTILE = 0.2;
  private static final double BRIGHT_QUANTILE = 0.985;
  private static final int SAMPLING = 7;

  /** Returns the levels of a picture of averaged cells. */
  static GreyLevels of(float[] cells) {
    float[] sample = new float[(cells.length + SAMPLING - 1) / SAMPLING];
    for (int i = 0; i < sample.length; i++) {
      sample[i] = cells[i * SAMPLING];
    }
    Arrays.sort(sample);
    return new GreyLevels(quantile(sample, DARK_QUANTILE), quantile(sample, BRIGHT_QUANTILE));
  }

  /** Returns the distance from dark to bright. */
  float contrast() {
    return bright - dark;
  }

  private static float quantile(float[] sorted, double q) {
    return sorted[(int) Math.round(q * (sorted.length - 1))];
  }
}
