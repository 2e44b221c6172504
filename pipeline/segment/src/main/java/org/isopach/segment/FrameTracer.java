package org.isopach.segment;

import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.TissueMap;

/** Settles the boundaries of one frame at full resolution, near where the tissue map puts them. */
final class FrameTracer {
  private static final double ALONG_MICROMETRES = 12;
  private static final double BESIDE_MICROMETRES = 46;

  private final AxialScale axial;
  private final double ascanMicrometres;
  private final EdgeTracer tracer;
  private final EdgeSettler settler;

  FrameTracer(AxialScale axial, double ascanMicrometres) {
    this.axial = axial;
    this.ascanMicrometres = ascanMicrometres;
    this.tracer = new EdgeTracer(axial, ascanMicrometres);
    this.settler = new EdgeSettler(axial, ascanMicrometres);
  }

  /** Returns the lines of one frame. */
  Map<Boundary, TracedLine> trace(FrameView frame, TissueMap map, LayerPaths paths) {
    Map<Boundary, TracedLine> lines = new EnumMap<>(Boundary.class);
    for (Boundary boundary : Boundary.values()) {
      float[] place = depths(map, paths.places(boundary), frame.ascans());
      float[] doubt = spread(map, paths.doubts(boundary), frame.ascans());
      BoundaryRule rule = BoundaryRules.of(boundary);
      float[] depth = rule == null ? place : settled(frame, rule, place);
      lines.put(boundary, new TracedLine(depth, place, doubt));
    }
    return lines;
  }

  private float[] settled(FrameView frame, BoundaryRule rule, float[] place) {
    double half = axial.toPixels(rule.reachMicrometres() + BESIDE_MICROMETRES);
    Strip strip =
        Strip.cut(
            frame, place, -half, (int) Math.ceil(2 * half), ALONG_MICROMETRES / ascanMicrometres);
    return settler.settle(strip, rule, tracer.trace(strip, rule, place));
  }

  private static float[] depths(TissueMap map, float[] places, int ascans) {
    float[] depths = spread(map, places, ascans);
    for (int a = 0; a < ascans; a++) {
      // Place p is the border before row p, half a row before that row's centre.
      depths[a] = (float) map.depthPx(depths[a] - 0.5);
    }
    return depths;
  }

  /** Returns the values of the columns at every A-scan, interpolated linearly. */
  private static float[] spread(TissueMap map, float[] values, int ascans) {
    float[] spread = new float[ascans];
    for (int a = 0; a < ascans; a++) {
      double at = map.column(a);
      int left = (int) Math.min(values.length - 1, Math.floor(at));
      int right = Math.min(values.length - 1, left + 1);
      spread[a] = (float) (values[left] + (at - left) * (values[right] - values[left]));
    }
    return spread;
  }
}
