package org.isopach.cli.accuracy;

import java.util.SplittableRandom;
import org.isopach.analysis.map.MapLattice;

/**
 * Draws the error of one map, without any help from what estimates it: an offset of the whole map,
 * long waves, single places, and now and then a patch where a line has failed.
 *
 * <p>The sizes were chosen to look like the differences of repeated phantom scans (ILM-BM: a
 * sector's mean varies by 0.5 to 1.1 µm, a place of the smoothed map by 1.2 to 1.9 µm, correlation
 * length 0.7 mm).
 */
final class NoiseField {
  private static final double OFFSET_UM = 0.4;
  private static final double WAVES_UM = 1.1;
  private static final double PLACE_UM = 3.0;
  private static final double WAVE_NUMBER = 1.6;
  private static final int WAVES = 48;
  private static final double PATCHES = 0.4;
  private static final double PATCH_UM = 5;
  private static final double PATCH_MM = 0.2;

  private NoiseField() {}

  /**
   * Adds an error to values of shape {@code (rows, columns)}.
   *
   * @param size by how much this eye's errors exceed the usual ones
   */
  static void addTo(float[] values, MapLattice lattice, double size, SplittableRandom random) {
    double offset = OFFSET_UM * random.nextGaussian();
    double[] kx = new double[WAVES];
    double[] ky = new double[WAVES];
    double[] phase = new double[WAVES];
    for (int w = 0; w < WAVES; w++) {
      kx[w] = WAVE_NUMBER * random.nextGaussian();
      ky[w] = WAVE_NUMBER * random.nextGaussian();
      phase[w] = 2 * Math.PI * random.nextDouble();
    }
    boolean failed = random.nextDouble() < PATCHES;
    double patchX = 6 * random.nextDouble() - 3;
    double patchY = 6 * random.nextDouble() - 3;
    double patch = failed ? PATCH_UM * random.nextGaussian() : 0;
    for (int i = 0; i < values.length; i++) {
      double x = lattice.xMm(i % lattice.columns());
      double y = lattice.yMm(i / lattice.columns());
      double waves = 0;
      for (int w = 0; w < WAVES; w++) {
        waves += Math.cos(kx[w] * x + ky[w] * y + phase[w]);
      }
      double away = Math.hypot(x - patchX, y - patchY) / PATCH_MM;
      values[i] +=
          (float)
              (size
                  * (offset
                      + WAVES_UM * Math.sqrt(2.0 / WAVES) * waves
                      + PLACE_UM * random.nextGaussian()
                      + patch * Math.exp(-0.5 * away * away)));
    }
  }
}
