package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;

/**
 * Tells A-scans whose retina leaves the frame: at the top, bright tissue touches the edge (or a
 * margin without picture) and no inner limiting membrane is found clear of it; at the bottom,
 * tissue touches the edge, the retina lies close before it and no Bruch's membrane is found clear
 * of it.
 */
final class FrameEdges {
  private static final float TISSUE = 0.25f;
  private static final double EDGE_MICROMETRES = 25;
  private static final double RETINA_MICROMETRES = 700;

  private final LoadedScan loaded;
  private final BoundarySet boundaries;
  private final double edgePx;
  private final double retinaPx;

  FrameEdges(LoadedScan loaded, BoundarySet boundaries) {
    this.loaded = loaded;
    this.boundaries = boundaries;
    this.edgePx = loaded.scan().axial().toPixels(EDGE_MICROMETRES);
    this.retinaPx = loaded.scan().axial().toPixels(RETINA_MICROMETRES);
  }

  /** Returns for each A-scan of a usable frame whether its retina leaves the frame. */
  boolean[] cutOff(int frame) {
    EdgeTissue tissue = new EdgeTissue(loaded, frame, EDGE_MICROMETRES);
    boolean[] cut = new boolean[loaded.scan().size().ascans()];
    for (int a = 0; a < cut.length; a++) {
      double start = loaded.margins(frame).top(a);
      double end = loaded.scan().size().depths() - 1.0 - loaded.margins(frame).bottom(a);
      double ilm = depth(Boundary.ILM, frame, a);
      double bm = depth(Boundary.BM, frame, a);
      boolean innerNear = !(ilm - start >= edgePx);
      boolean outerNear = !(end - bm >= edgePx) && end - ilm < retinaPx;
      boolean top = innerNear && tissue.atTop(a) >= TISSUE;
      boolean bottom = outerNear && tissue.atBottom(a) >= TISSUE;
      cut[a] = top || bottom;
    }
    return cut;
  }

  private double depth(Boundary boundary, int frame, int ascan) {
    return boundaries
        .surface(boundary)
        .map(surface -> (double) surface.depthPx(frame, ascan))
        .orElse(Double.NaN);
  }
}
