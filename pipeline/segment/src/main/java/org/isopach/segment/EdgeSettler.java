package org.isopach.segment;

import java.util.Arrays;
import org.isopach.analysis.geometry.AxialScale;

/**
 * Settles a traced line on its edge below the pixel: averages the frame along the line, so that
 * little noise is left, and moves the line to where the grey has gone a stated share of the way
 * from the darker to the brighter side.
 *
 * <p>In a picture of compressed (logarithmic) greys the steepest place of a blurred edge lies on
 * its dark side, not at the interface; half the light is reached nearer to the bright side. The
 * share belongs to the boundary's rule and is explained in docs/measurements.md.
 */
final class EdgeSettler {
  private static final double AVERAGE_MICROMETRES = 40;
  private static final double REACH_MICROMETRES = 22;
  private static final double DARK_FROM_MICROMETRES = 7;
  private static final double LARGEST_MOVE_MICROMETRES = 12;

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
  float[] settle(FrameView frame, BoundaryRule rule, float[] line) {
    int reach = (int) Math.max(4, Math.round(axial.toPixels(REACH_MICROMETRES)));
    int rows = 2 * reach + 1;
    float[] firstDepth = new float[line.length];
    for (int a = 0; a < line.length; a++) {
      firstDepth[a] = line[a] - reach;
    }
    BandPicture band =
        BandPicture.cut(frame, firstDepth, rows, AVERAGE_MICROMETRES / ascanMicrometres, 0);
    float[] move = new float[line.length];
    float[] profile = new float[rows];
    for (int a = 0; a < line.length; a++) {
      for (int r = 0; r < rows; r++) {
        // Always read from the dark side to the bright one.
        int row = rule.polarity().sign() > 0 ? r : rows - 1 - r;
        profile[r] = band.value(a, row);
      }
      move[a] = rule.polarity().sign() * moveOf(profile, reach, rule.edgeShare());
    }
    float[] equal = new float[line.length];
    Arrays.fill(equal, 1);
    float[] smooth = LineSmoother.smooth(move, equal, AVERAGE_MICROMETRES / ascanMicrometres);
    float[] settled = line.clone();
    for (int a = 0; a < line.length; a++) {
      settled[a] += smooth[a];
    }
    return settled;
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
