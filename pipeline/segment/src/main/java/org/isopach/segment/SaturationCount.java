package org.isopach.segment;

import java.util.Arrays;
import org.isopach.analysis.scan.GreyRange;

/**
 * Counts the saturated pixels of frames. A margin of full brightness that an instrument left is not
 * counted, unless it takes up more than half of its A-scan: then it is the picture that is too
 * bright.
 */
final class SaturationCount {
  private static final double SATURATION = 0.97;

  private final int ascans;
  private final int depths;
  private final float saturated;
  private final int[] before;

  SaturationCount(int ascans, int depths, GreyRange range) {
    this.ascans = ascans;
    this.depths = depths;
    this.saturated = (float) (range.low() + SATURATION * (range.high() - range.low()));
    this.before = new int[ascans];
  }

  /** Looks at a frame before its margins are filled. */
  void look(float[] picture) {
    count(picture, before);
  }

  /** Returns the share of saturated pixels of the frame last looked at, 0 to 1. */
  double share(float[] filled, FrameConditioner.Margins margins) {
    int[] after = new int[ascans];
    count(filled, after);
    long bright = 0;
    long all = 0;
    for (int a = 0; a < ascans; a++) {
      int margin = Math.min(depths, margins.top(a) + margins.bottom(a));
      boolean tooMuch = 2 * margin > depths;
      bright += tooMuch ? before[a] : after[a];
      all += tooMuch ? depths : depths - margin;
    }
    return all == 0 ? 0 : (double) bright / all;
  }

  private void count(float[] picture, int[] into) {
    Arrays.fill(into, 0);
    for (int i = 0; i < picture.length; i++) {
      if (picture[i] >= saturated) {
        into[i % ascans]++;
      }
    }
  }
}
