package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;

/**
 * A boundary in one frame at full resolution: depths in pixels, 0 at the centre of the first, and
 * what speaks for each.
 */
final class TracedLine {
  private final float[] depthPx;
  private final Evidence[] evidence;

  private TracedLine(float[] depthPx, Evidence[] evidence) {
    this.depthPx = depthPx;
    this.evidence = evidence;
  }

  /**
   * Makes a line; the array of depths is kept.
   *
   * @param mapPx depth at which the tissue map has the boundary
   * @param bendPx distance of the map's depth from the straight line through its surroundings
   * @param doubt expected number of misplaced cells
   */
  static TracedLine of(
      Boundary boundary,
      float[] depthPx,
      float[] mapPx,
      float[] bendPx,
      float[] doubt,
      double micrometresPerPixel,
      double contrastToNoise) {
    Evidence[] evidence = new Evidence[depthPx.length];
    for (int a = 0; a < depthPx.length; a++) {
      evidence[a] =
          new Evidence(
              boundary,
              doubt[a],
              micrometresPerPixel * Math.abs(depthPx[a] - mapPx[a]),
              micrometresPerPixel * Math.abs(bendPx[a]),
              contrastToNoise);
    }
    return new TracedLine(depthPx, evidence);
  }

  /** Returns the number of A-scans. */
  int ascans() {
    return depthPx.length;
  }

  /** Returns the depth at an A-scan. */
  float depthPx(int ascan) {
    return depthPx[ascan];
  }

  /** Returns what speaks for the depth at an A-scan. */
  Evidence evidence(int ascan) {
    return evidence[ascan];
  }
}
