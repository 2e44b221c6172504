package org.isopach.segment;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.layer.Absence;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.segment.tissue.TissueMap;

/**
 * Collects the lines of all frames into surfaces: turns doubt into confidence, leaves out what is
 * not measurable, and keeps the order of the boundaries.
 */
final class SurfaceBuilder {
  private static final float CUT_OFF_PIXELS = 1.5f;

  private final ScanSize size;
  private final ConfidenceScale scale;
  private final Map<Boundary, float[]> depths = new EnumMap<>(Boundary.class);
  private final Map<Boundary, float[]> confidences = new EnumMap<>(Boundary.class);
  private final Map<Boundary, byte[]> absences = new EnumMap<>(Boundary.class);

  SurfaceBuilder(ScanSize size, ConfidenceScale scale) {
    this.size = size;
    this.scale = scale;
    int points = size.frames() * size.ascans();
    for (Boundary boundary : Boundary.values()) {
      float[] nothing = new float[points];
      Arrays.fill(nothing, Float.NaN);
      depths.put(boundary, nothing);
      confidences.put(boundary, new float[points]);
      byte[] dark = new byte[points];
      Arrays.fill(dark, Absence.DARK_FRAME.mark());
      absences.put(boundary, dark);
    }
  }

  /**
   * Adds a frame's lines; different frames may be added by different threads.
   *
   * @param map the frame's tissues, which tell where a boundary is absent
   */
  void add(
      int frame,
      Map<Boundary, TracedLine> lines,
      FrameConditioner.Margins margins,
      TissueMap map,
      double micrometresPerPixel) {
    LostLayers lost = new LostLayers(map, micrometresPerPixel);
    int ascans = size.ascans();
    for (Map.Entry<Boundary, TracedLine> entry : lines.entrySet()) {
      Boundary boundary = entry.getKey();
      TracedLine line = entry.getValue();
      for (int a = 0; a < ascans; a++) {
        int i = frame * ascans + a;
        Absence why = outside(line.depthPx(a), a, margins);
        if (why == Absence.NONE) {
          why = lost.absence(boundary, (int) Math.round(map.column(a)));
        }
        absences.get(boundary)[i] = why.mark();
        if (why == Absence.NONE) {
          depths.get(boundary)[i] = line.depthPx(a);
          confidences.get(boundary)[i] = (float) scale.confidence(line.evidence(a));
        }
      }
    }
    keepOrder(frame);
  }

  private Absence outside(float depth, int ascan, FrameConditioner.Margins margins) {
    int bottom = size.depths() - 1;
    if (depth < CUT_OFF_PIXELS || depth > bottom - CUT_OFF_PIXELS) {
      return Absence.OUT_OF_FRAME;
    }
    boolean covered =
        depth < margins.top(ascan) + CUT_OFF_PIXELS
            || depth > bottom - margins.bottom(ascan) - CUT_OFF_PIXELS;
    return covered ? Absence.MARGIN : Absence.NONE;
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
              size.frames(),
              size.ascans(),
              entry.getValue(),
              confidences.get(entry.getKey()),
              absences.get(entry.getKey())));
    }
    return new BoundarySet(surfaces);
  }
}
