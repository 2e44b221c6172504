package org.isopach.segment;

import java.util.Arrays;
import org.isopach.analysis.scan.GreyRange;

/**
 * Takes out of a frame what is not tissue: the saturated or constant margins that an instrument
 * leaves where its own registration moved the picture. They are replaced by the frame's dark level.
 */
final class FrameConditioner {
  private static final double SATURATION = 0.97;
  private static final int LEAST_RUN = 3;
  private static final int SOFT_EDGE = 2;
  private static final int LEAST_CONSTANT_RUN = 8;
  private static final int SAMPLING = 5;
  private static final double DARK_QUANTILE = 0.2;

  private final int ascans;
  private final int depths;
  private final float saturated;

  FrameConditioner(int ascans, int depths, GreyRange range) {
    this.ascans = ascans;
    this.depths = depths;
    this.saturated = (float) (range.low() + SATURATION * (range.high() - range.low()));
  }

  /**
   * Fills the margins of a frame in place.
   *
   * @param picture grey values, index {@code depth * ascans + ascan}
   * @return how many pixels of each A-scan were margin, from the top and from the bottom
   */
  Margins clean(float[] picture) {
    int[] top = new int[ascans];
    int[] bottom = new int[ascans];
    boolean any = false;
    for (int a = 0; a < ascans; a++) {
      top[a] = run(picture, a, 1);
      bottom[a] = top[a] >= depths ? 0 : run(picture, a, -1);
      any |= top[a] > 0 || bottom[a] > 0;
    }
    if (any) {
      float dark = darkLevel(picture, top, bottom);
      for (int a = 0; a < ascans; a++) {
        for (int d = 0; d < top[a]; d++) {
          picture[d * ascans + a] = dark;
        }
        for (int d = depths - bottom[a]; d < depths; d++) {
          picture[d * ascans + a] = dark;
        }
      }
    }
    return new Margins(top, bottom);
  }

  private int run(float[] picture, int a, int direction) {
    int first = direction > 0 ? 0 : depths - 1;
    float edge = picture[first * ascans + a];
    int bright = 0;
    int constant = 0;
    boolean sameSoFar = true;
    boolean brightSoFar = true;
    for (int i = 0; i < depths && (sameSoFar || brightSoFar); i++) {
      float value = picture[(first + direction * i) * ascans + a];
      brightSoFar &= value >= saturated;
      sameSoFar &= value == edge;
      bright += brightSoFar ? 1 : 0;
      constant += sameSoFar ? 1 : 0;
    }
    if (bright >= LEAST_RUN) {
      return Math.min(depths, bright + SOFT_EDGE);
    }
    return constant >= LEAST_CONSTANT_RUN ? Math.min(depths, constant + SOFT_EDGE) : 0;
  }

  private float darkLevel(float[] picture, int[] top, int[] bottom) {
    float[] sample = new float[picture.length / SAMPLING + 1];
    int n = 0;
    for (int i = 0; i < picture.length; i += SAMPLING) {
      int a = i % ascans;
      int d = i / ascans;
      if (d >= top[a] && d < depths - bottom[a]) {
        sample[n++] = picture[i];
      }
    }
    if (n == 0) {
      return picture[0];
    }
    Arrays.sort(sample, 0, n);
    return sample[(int) (DARK_QUANTILE * (n - 1))];
  }

  /** Margin pixels of each A-scan of one frame. */
  static final class Margins {
    private final int[] top;
    private final int[] bottom;

    private Margins(int[] top, int[] bottom) {
      this.top = top;
      this.bottom = bottom;
    }

    /** Returns the number of margin pixels at the top of an A-scan. */
    int top(int ascan) {
      return top[ascan];
    }

    /** Returns the number of margin pixels at the bottom of an A-scan. */
    int bottom(int ascan) {
      return bottom[ascan];
    }
  }
}
