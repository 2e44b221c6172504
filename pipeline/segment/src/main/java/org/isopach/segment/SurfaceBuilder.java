package org.isopach.segment;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.ScanSize;

/**
 * Collects the traced lines of all frames into surfaces: turns clearness into confidence, leaves
 * out what is not measurable, and keeps the order of the boundaries.
 */
final class SurfaceBuilder {
  private static final float CUT_OFF_PIXELS = 1.5f;
  private static final double CLEAR_CONTRAST = 0.16;
  private static final double CONTRAST_WIDTH = 0.055;
  private static final double CLEAR_SIGNIFICANCE = 2.2;
  private static final double SIGNIFICANCE_WIDTH = 0.5;
  private static final double CLEAR_FRAME = 3.7;
  private static final double FRAME_WIDTH = 0.35;
  private static final double LEAD_WEIGHT = 0.35;
  private static final double LEAST_LOCAL_CONFIDENCE = 0.12;
  private static final double LOCAL_MICROMETRES = 40;
  private static final double LEAST_LOCAL_ASCANS = 2;

  private final ScanSize size;
  private final double ascanMicrometres;
  private final Map<Boundary, float[]> depths = new EnumMap<>(Boundary.class);
  private final Map<Boundary, float[]> confidences = new EnumMap<>(Boundary.class);

  SurfaceBuilder(ScanSize size, double ascanMicrometres, Iterable<BoundaryRule> rules) {
    this.size = size;
    this.ascanMicrometres = ascanMicrometres;
    int points = size.frames() * size.ascans();
    for (BoundaryRule rule : rules) {
      float[] nothing = new float[points];
      Arrays.fill(nothing, Float.NaN);
      depths.put(rule.boundary(), nothing);
      confidences.put(rule.boundary(), new float[points]);
    }
  }

  /**
   * Adds a frame's lines; different frames may be added by different threads.
   *
   * @param contrastToNoise of the frame; in a frame near the noise no edge is to be trusted
   */
  void add(
      int frame,
      Map<Boundary, TracedLine> lines,
      FrameConditioner.Margins margins,
      double contrastToNoise) {
    double trust = logistic((contrastToNoise - CLEAR_FRAME) / FRAME_WIDTH);
    int ascans = size.ascans();
    for (Map.Entry<Boundary, TracedLine> entry : lines.entrySet()) {
      float[] depth = depths.get(entry.getKey());
      float[] confidence = confidences.get(entry.getKey());
      float[] local = localConfidence(entry.getValue(), trust);
      for (int a = 0; a < ascans; a++) {
        float d = entry.getValue().depthPx(a);
        boolean inside =
            d >= margins.top(a) + CUT_OFF_PIXELS
                && d <= size.depths() - 1 - margins.bottom(a) - CUT_OFF_PIXELS;
        if (inside && local[a] >= LEAST_LOCAL_CONFIDENCE) {
          depth[frame * ascans + a] = d;
          confidence[frame * ascans + a] = local[a];
        }
      }
    }
    keepOrder(frame);
  }

  private float[] localConfidence(TracedLine line, double trust) {
    int n = line.ascans();
    float[] raw = new float[n];
    for (int a = 0; a < n; a++) {
      double clear = line.contrast(a) + LEAD_WEIGHT * Math.min(0, line.lead(a));
      double significance = line.contrast(a) / line.noise();
      raw[a] =
          (float)
              (trust
                  * logistic((clear - CLEAR_CONTRAST) / CONTRAST_WIDTH)
                  * logistic((significance - CLEAR_SIGNIFICANCE) / SIGNIFICANCE_WIDTH));
    }
    float[] local =
        LineSmoother.smooth(
            raw, Math.max(LEAST_LOCAL_ASCANS, LOCAL_MICROMETRES / ascanMicrometres));
    for (int a = 0; a < n; a++) {
      local[a] = Math.min(1, Math.max(0, local[a]));
    }
    return local;
  }

  private static double logistic(double x) {
    return 1 / (1 + Math.exp(-x));
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
