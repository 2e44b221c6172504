package org.isopach.segment;

/**
 * A boundary in one frame at full resolution.
 *
 * <p>Depths are in pixels, 0 at the centre of the first. The doubt is the expected number of cells
 * near the boundary that the tissue map has on its wrong side.
 */
final class TracedLine {
  private final float[] depthPx;
  private final float[] mapDepthPx;
  private final float[] doubt;

  /** Makes a line; the arrays are kept. */
  TracedLine(float[] depthPx, float[] mapDepthPx, float[] doubt) {
    this.depthPx = depthPx;
    this.mapDepthPx = mapDepthPx;
    this.doubt = doubt;
  }

  /** Returns the number of A-scans. */
  int ascans() {
    return depthPx.length;
  }

  /** Returns the depth at an A-scan. */
  float depthPx(int ascan) {
    return depthPx[ascan];
  }

  /** Returns the depth at which the tissue map has the boundary. */
  float mapDepthPx(int ascan) {
    return mapDepthPx[ascan];
  }

  /** Returns the doubt at an A-scan. */
  float doubt(int ascan) {
    return doubt[ascan];
  }
}
