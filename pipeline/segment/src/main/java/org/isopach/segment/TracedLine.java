package org.isopach.segment;

/**
 * A boundary traced through one frame: depth in pixels (0 = centre of the first), the rise in
 * brightness found there in units of the frame's contrast, and by how much it beats the best other
 * edge of its search band.
 */
final class TracedLine {
  private final float[] depthPx;
  private final float[] contrast;
  private final float[] lead;

  TracedLine(float[] depthPx, float[] contrast, float[] lead) {
    this.depthPx = depthPx;
    this.contrast = contrast;
    this.lead = lead;
  }

  /** Returns a line that found nothing: it stays on its anchor, without any contrast. */
  static TracedLine nothing(float[] anchor) {
    return new TracedLine(anchor.clone(), new float[anchor.length], new float[anchor.length]);
  }

  /** Returns the number of A-scans. */
  int ascans() {
    return depthPx.length;
  }

  /** Returns the depth at an A-scan. */
  float depthPx(int ascan) {
    return depthPx[ascan];
  }

  /** Returns the rise at an A-scan; larger is clearer, 0 or less is none. */
  float contrast(int ascan) {
    return contrast[ascan];
  }

  /** Returns the rise at an A-scan less the strongest rise elsewhere in the band. */
  float lead(int ascan) {
    return lead[ascan];
  }

  /** Returns this line at other depths. */
  TracedLine at(float[] depths) {
    return new TracedLine(depths, contrast, lead);
  }

  /** Returns a copy of all depths. */
  float[] depths() {
    return depthPx.clone();
  }
}
