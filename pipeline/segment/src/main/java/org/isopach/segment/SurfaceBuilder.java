package org.isopach.segment;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.ScanSize;

/**
 * Collects the lines of all frames into surfaces: turns doubt into confidence, leaves out what is
 * not measurable, and keeps the order of the boundaries.
 */
final class SurfaceBuilder {
  private static final float CUT_OFF_PIXELS = 1.5f;

  private final ScanSize size;
  private final ConfidenceScale scale = ConfidenceScale.shipped();
  private final Map<Boundary, float[]> depths = new EnumMap<>(Boundary.class);
  private final Map<Boundary, float[]> confidences = new EnumMap<>(Boundary.class);

  SurfaceBuilder(ScanSize size) {
    this.size = size;
    int points = size.frames() * size.ascans();
    for (Boundary boundary : Boundary.values()) {
      float[] nothing = new float[points];
      Arrays.fill(nothing, Float.NaN);
      depths.put(boundary, nothing);
      confidences.put(boundary, new float[points]);
    }
  }

  /** Adds a frame's lines; different frames may be added by different threads. */
  void add(int frame, Map<Boundary, TracedLine> lines, FrameConditioner.Margins margins) {
    int ascans = size.ascans();
    for (Map.Entry<Boundary, TracedLine> entry : lines.entrySet()) {
      float[] depth = depths.get(entry.getKey());
      float[] confidence = confidences.get(entry.getKey());
      for (int a = 0; a < ascans; a++) {
        float d = entry.getValue().depthPx(a);
        boolean inside =
            d >= margins.top(a) + CUT_OFF_PIXELS
                && d <= size.depths() - 1 - margins.bottom(a) - CUT_OFF_PIXELS;
        if (inside) {
          depth[frame * ascans + a] = d;
          confidence[frame * ascans + a] = (float) scale.confidence(entry.getValue().evidence(a));
        }
      }
    }
    keepOrder(frame);
  }

  /** Where two lines touch or cross, both take the outer one's depth: the layer is not there. */
  private void keepOrder(int frame) {
    Boundary[] order = depths.keySet().toArray(new Boundary[0]);
    for (int a = 0; a < size.ascans(); a++) {
      int i = frame * size.ascans() + a;
      float below = Float.POSITIVE_INFINITY;
      for (int b = order.length - 1; b >= 0; b--) {
        float[] depth = depths.get(order[b]);
        if (Float.isNaN(depth[i])) {
          continue;
        }
        if (depth[i] > below) {
          depth[i] = below;
        }
        below = depth[i];
      }
    }
  }

  /** Returns the surfaces of all frames added. */
  BoundarySet build() {
    Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
    for (Map.Entry<Boundary, float[]> entry : depths.entrySet()) {
      surfaces.put(
          entry.getKey(),
          new BoundarySurface(
              size.frames(), size.ascans(), entry.getValue(), confidences.get(entry.getKey())));
    }
    return new BoundarySet(surfaces);
  }
}
