package org.isopach.report.picture;

import org.isopach.analysis.colour.ColourScale;

/** A colour scale in a table of steps finer than the eye, so that a picture is painted quickly. */
final class ColourRamp {
  private static final int STEPS = 4096;

  static final ColourRamp THICKNESS = new ColourRamp(ColourScale.sequential());
  static final ColourRamp CHANGE = new ColourRamp(ColourScale.diverging());

  private final int[] colours = new int[STEPS + 1];

  private ColourRamp(ColourScale scale) {
    for (int i = 0; i <= STEPS; i++) {
      colours[i] = scale.rgb((double) i / STEPS);
    }
  }

  /** Returns the colour as {@code 0xrrggbb} for a share from 0 to 1. */
  int rgb(double share) {
    return colours[(int) Math.round(share * STEPS)];
  }
}
