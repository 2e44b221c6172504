package org.isopach.segment;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.BoundaryRule.Anchor;

/** Traces all declared boundaries through one frame, from its coarse paths. */
final class FrameTracer {
  private static final double PATH_SIGMA_COLUMNS = 1.2;
  private static final double OUTER_MEDIAN_MICROMETRES = 200;
  private static final double OUTER_SIGMA_MICROMETRES = 80;

  private final CoarseGrid grid;
  private final AxialScale axial;
  private final double ascanMicrometres;
  private final EdgeTracer tracer;
  private final EdgeSettler settler;
  private final List<BoundaryRule> rules;

  FrameTracer(
      CoarseGrid grid, AxialScale axial, double ascanMicrometres, List<BoundaryRule> rules) {
    this.grid = grid;
    this.axial = axial;
    this.ascanMicrometres = ascanMicrometres;
    this.tracer = new EdgeTracer(axial, ascanMicrometres);
    this.settler = new EdgeSettler(axial, ascanMicrometres);
    this.rules = rules;
  }

  /**
   * Returns the lines of one frame.
   *
   * @param innerPath coarse rows of the inner limiting membrane
   * @param outerPath coarse rows of the outer bands' inner edge
   */
  Map<Boundary, TracedLine> trace(FrameView frame, int[] innerPath, int[] outerPath) {
    Map<Anchor, float[]> anchors = new EnumMap<>(Anchor.class);
    anchors.put(Anchor.INNER_PATH, fullResolution(innerPath, frame.ascans()));
    anchors.put(
        Anchor.OUTER_PATH,
        tracer.smoothed(
            fullResolution(outerPath, frame.ascans()),
            OUTER_MEDIAN_MICROMETRES,
            OUTER_SIGMA_MICROMETRES));
    Map<StripRule, Strip> strips = new EnumMap<>(StripRule.class);
    Map<Boundary, TracedLine> lines = new EnumMap<>(Boundary.class);
    for (BoundaryRule rule : rules) {
      Strip strip = strips.computeIfAbsent(rule.strip(), which -> cut(frame, which, anchors));
      TracedLine edge = tracer.trace(strip, rule, anchors.get(rule.anchor()));
      TracedLine line = edge.at(settler.settle(strip, rule, edge.depths()));
      lines.put(rule.boundary(), line);
      if (rule.boundary() == Boundary.BM) {
        anchors.put(Anchor.BM, line.depths());
      } else if (rule.boundary() == Boundary.RPE) {
        anchors.put(Anchor.RPE, line.depths());
      }
    }
    return lines;
  }

  private Strip cut(FrameView frame, StripRule rule, Map<Anchor, float[]> anchors) {
    double from = axial.toPixels(rule.fromMicrometres());
    int rows = (int) Math.ceil(axial.toPixels(rule.toMicrometres()) - from);
    return Strip.cut(
        frame,
        anchors.get(rule.anchor()),
        from,
        rows,
        rule.lateralMicrometres() / ascanMicrometres);
  }

  private float[] fullResolution(int[] path, int ascans) {
    float[] rows = new float[path.length];
    for (int c = 0; c < path.length; c++) {
      rows[c] = path[c];
    }
    float[] smooth = LineSmoother.smooth(rows, PATH_SIGMA_COLUMNS);
    float[] depth = new float[ascans];
    for (int a = 0; a < ascans; a++) {
      double at = grid.column(a);
      int left = (int) Math.min(path.length - 1, Math.floor(at));
      int right = Math.min(path.length - 1, left + 1);
      double row = smooth[left] + (at - left) * (smooth[right] - smooth[left]);
      // An edge in front of row r lies half a row before its centre.
      depth[a] = (float) grid.depthPx(row - 0.5);
    }
    return depth;
  }
}
