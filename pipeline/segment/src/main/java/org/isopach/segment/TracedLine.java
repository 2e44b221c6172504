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
  private final float noise;

  TracedLine(float[] depthPx, float[] contrast, float[] lead, float noise) {
    this.depthPx = depthPx;
    this.contrast = contrast;
    this.lead = lead;
    this.noise = noise;
  }

  /** Returns a line that found nothing: it stays on its anchor, without any contrast. */
  static TracedLine nothing(float[] anchor) {
    return new TracedLine(anchor.clone(), new float[anchor.length], new float[anchor.length], 1);
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

  /** Returns the standard deviation, from A-scan to A-scan, of the rises of the search band. */
  float noise() {
    return noise;
  }

  /** Returns this line at other depths. */
  TracedLine at(float[] depths) {
    return new TracedLine(depths, contrast, lead, noise);
  }

  /** Returns a copy of all depths. */
  float[] depths() {
    return depthPx.clone();
  }
}
