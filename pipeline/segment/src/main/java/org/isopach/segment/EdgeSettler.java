package org.isopach.segment;

import org.isopach.analysis.geometry.AxialScale;

/**
 * Settles a traced line on its edge below the pixel: averages the picture along the line, so that
 * little noise is left, and moves the line to where the grey has gone a stated share of the way
 * from the darker to the brighter side.
 *
 * <p>In a picture of compressed (logarithmic) greys the steepest place of a blurred edge lies on
 * its dark side, not at the interface; half the light is reached nearer to the bright side. The
 * share belongs to the boundary's rule and is explained in docs/measurements.md.
 */
final class EdgeSettler {
  private static final double AVERAGE_MICROMETRES = 60;
  private static final double REACH_MICROMETRES = 22;
  private static final double DARK_FROM_MICROMETRES = 7;
  private static final double LARGEST_MOVE_MICROMETRES = 12;
  private static final double SMOOTH_MICROMETRES = 30;

  private final AxialScale axial;
  private final double ascanMicrometres;

  EdgeSettler(AxialScale axial, double ascanMicrometres) {
    this.axial = axial;
    this.ascanMicrometres = ascanMicrometres;
  }

  /**
   * Returns the line moved onto the stated share of the edge.
   *
   * @param line depth in pixels at each A-scan
   */
  float[] settle(Strip strip, BoundaryRule rule, float[] line) {
    int reach = (int) Math.max(4, Math.round(axial.toPixels(REACH_MICROMETRES)));
    int sign = rule.polarity().sign();
    float[][] profiles = profiles(strip, line, reach, sign);
    float[] move = new float[line.length];
    for (int a = 0; a < line.length; a++) {
      move[a] = sign * moveOf(profiles[a], reach, rule.edgeShare());
    }
    float[] smooth = LineSmoother.smooth(move, SMOOTH_MICROMETRES / ascanMicrometres);
    float[] settled = line.clone();
    for (int a = 0; a < line.length; a++) {
      settled[a] += smooth[a];
    }
    return settled;
  }

  /** The picture across the line, dark side first, averaged along the line by a moving window. */
  private float[][] profiles(Strip strip, float[] line, int reach, int sign) {
    int n = line.length;
    int half = (int) Math.max(1, Math.round(AVERAGE_MICROMETRES / ascanMicrometres));
    float[][] profiles = new float[n][2 * reach + 1];
    double[] sums = new double[n + 1];
    for (int i = 0; i <= 2 * reach; i++) {
      int offset = sign * (i - reach);
      for (int a = 0; a < n; a++) {
        sums[a + 1] = sums[a] + strip.at(a, line[a] - strip.firstDepth(a) + offset);
      }
      for (int a = 0; a < n; a++) {
        int from = Math.max(0, a - half);
        int to = Math.min(n, a + half + 1);
        profiles[a][i] = (float) ((sums[to] - sums[from]) / (to - from));
      }
    }
    return profiles;
  }

  /** Returns how far, in rows towards the bright side, the share is reached; 0 where it is not. */
  private float moveOf(float[] profile, int middle, double share) {
    int darkEnd = middle - (int) Math.max(1, Math.round(axial.toPixels(DARK_FROM_MICROMETRES)));
    float dark = 0;
    for (int r = 0; r <= darkEnd; r++) {
      dark += profile[r];
    }
    dark /= darkEnd + 1;
    int largest = (int) Math.max(2, Math.round(axial.toPixels(LARGEST_MOVE_MICROMETRES)));
    float bright = dark;
    int peak = middle;
    for (int r = middle - 1; r <= Math.min(profile.length - 2, middle + largest + 1); r++) {
      float mean = (profile[r - 1] + profile[r] + profile[r + 1]) / 3;
      if (mean > bright) {
        bright = mean;
        peak = r;
      }
    }
    float level = (float) (dark + share * (bright - dark));
    for (int r = peak; r > Math.max(0, middle - largest); r--) {
      if (profile[r] >= level && profile[r - 1] < level) {
        float part = (level - profile[r - 1]) / (profile[r] - profile[r - 1]);
        return r - 1 + part - middle;
      }
    }
    return 0;
  }
}
