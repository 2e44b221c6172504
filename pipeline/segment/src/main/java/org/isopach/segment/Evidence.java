package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;

/**
 * What speaks for and against the depth of a boundary in one A-scan.
 *
 * @param boundary which boundary
 * @param doubt expected number of cells of the tissue map near the boundary that lie on its wrong
 *     side, the mean over neighbouring columns
 * @param moveMicrometres how far the edge in the picture lies from the tissue map's place; 0 for
 *     boundaries that are not settled on an edge
 * @param bendMicrometres how far the map's place lies from the straight line through its
 *     surroundings
 * @param contrastToNoise of the frame
 */
public record Evidence(
    Boundary boundary,
    double doubt,
    double moveMicrometres,
    double bendMicrometres,
    double contrastToNoise) {
  /** Number of terms of {@link #term}. */
  public static final int TERMS = 6;

  private static final double MOVE_SCALE = 10;
  private static final double BEND_SCALE = 10;
  private static final double CONTRAST_SCALE = 20;

  /** Returns a term of the logistic model of the confidence; term 0 is 1. */
  public double term(int i) {
    return switch (i) {
      case 0 -> 1;
      case 1 -> doubt;
      case 2 -> Math.log(0.05 + doubt);
      case 3 -> moveMicrometres / MOVE_SCALE;
      case 4 -> Math.min(5, bendMicrometres / BEND_SCALE);
      case 5 -> Math.min(CONTRAST_SCALE, contrastToNoise) / CONTRAST_SCALE;
      default -> throw new IllegalArgumentException("no term " + i);
    };
  }
}
