package org.isopach.segment;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.BoundaryRule.Anchor;

/** Traces all declared boundaries through one frame, from its coarse paths. */
final class FrameTracer {
  private static final double PATH_SIGMA_COLUMNS = 1.2;
  private static final double EZ_MEDIAN_MICROMETRES = 250;
  private static final double EZ_SMOOTH_MICROMETRES = 120;

  private final CoarseGrid grid;
  private final EdgeTracer tracer;
  private final EdgeSettler settler;
  private final List<BoundaryRule> rules;

  FrameTracer(CoarseGrid grid, EdgeTracer tracer, EdgeSettler settler, List<BoundaryRule> rules) {
    this.settler = settler;
    this.grid = grid;
    this.tracer = tracer;
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
    anchors.put(Anchor.OUTER_PATH, fullResolution(outerPath, frame.ascans()));
    Map<Boundary, TracedLine> lines = new EnumMap<>(Boundary.class);
    for (BoundaryRule rule : rules) {
      TracedLine edge = tracer.trace(frame, rule, anchors.get(rule.anchor()));
      TracedLine line = edge.at(settler.settle(frame, rule, edge.depths()));
      lines.put(rule.boundary(), line);
      if (rule.boundary() == Boundary.EZ) {
        anchors.put(
            Anchor.EZ_SMOOTH,
            tracer.anchorFrom(line.depths(), EZ_MEDIAN_MICROMETRES, EZ_SMOOTH_MICROMETRES));
      } else if (rule.boundary() == Boundary.BM) {
        anchors.put(Anchor.BM, line.depths());
      }
    }
    return lines;
  }

  private float[] fullResolution(int[] path, int ascans) {
    float[] rows = new float[path.length];
    float[] equal = new float[path.length];
    Arrays.fill(equal, 1);
    for (int c = 0; c < path.length; c++) {
      rows[c] = path[c];
    }
    float[] smooth = LineSmoother.smooth(rows, equal, PATH_SIGMA_COLUMNS);
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
