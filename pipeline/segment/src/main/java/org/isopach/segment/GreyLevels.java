package org.isopach.segment;

import java.util.Arrays;

/**
 * The dark and the bright of one frame, in grey units.
 *
 * @param dark the level of the vitreous and of empty depth
 * @param bright the level of the brightest layers, averaged over about 8 µm
 * @param noise standard deviation of single pixels: speckle and detector noise
 */
record GreyLevels(float dark, float bright, float noise) {
  private static final double DARK_QUANTILE = 0.2;
  private static final double BRIGHT_QUANTILE = 0.985;
  private static final int SAMPLING = 17;
  private static final int NOISE_SAMPLING = 101;
  private static final int APART = 6;
  private static final double MAD_TO_SIGMA = 1.4826;

  /**
   * Returns the levels of a frame.
   *
   * @param cells its averaged cells
   * @param picture its grey values, index {@code depth * ascans + ascan}
   */
  static GreyLevels of(float[] cells, float[] picture, int ascans) {
    float[] sample = new float[(cells.length + SAMPLING - 1) / SAMPLING];
    for (int i = 0; i < sample.length; i++) {
      sample[i] = cells[i * SAMPLING];
    }
    Arrays.sort(sample);
    return new GreyLevels(
        quantile(sample, DARK_QUANTILE), quantile(sample, BRIGHT_QUANTILE), noise(picture, ascans));
  }

  /** Returns the distance from dark to bright. */
  float contrast() {
    return bright - dark;
  }

  /** Returns the contrast in units of the noise; 0 without contrast. */
  double contrastToNoise() {
    return contrast() <= 0 ? 0 : contrast() / Math.max(noise, 1e-6 * contrast());
  }

  /** From the median absolute difference of pixels of one row that share no speckle. */
  private static float noise(float[] picture, int ascans) {
    if (ascans <= APART) {
      return 0;
    }
    float[] differences = new float[picture.length / NOISE_SAMPLING + 1];
    int n = 0;
    for (int i = 0; i + APART < picture.length; i += NOISE_SAMPLING) {
      if (i % ascans < ascans - APART) {
        differences[n++] = Math.abs(picture[i + APART] - picture[i]);
      }
    }
    Arrays.sort(differences, 0, n);
    return n == 0 ? 0 : (float) (differences[n / 2] * MAD_TO_SIGMA / Math.sqrt(2));
  }

  private static float quantile(float[] sorted, double q) {
    return sorted[(int) Math.round(q * (sorted.length - 1))];
  }
}
