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
  private static final double DOUBT_COLUMNS = 1.5;
  private static final float LEAST_DOUBT = 0.3f;
  private static final double SMOOTH_COLUMNS = 1;
  private static final double STRAIGHT_COLUMNS = 2.5;
  private static final double BEND_COLUMNS = 5;

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

  /**
   * Returns the lines of one frame.
   *
   * @param contrastToNoise of the frame
   */
  Map<Boundary, TracedLine> trace(
      FrameView frame, TissueMap map, LayerPaths paths, double contrastToNoise) {
    Map<Boundary, TracedLine> lines = new EnumMap<>(Boundary.class);
    for (Boundary boundary : Boundary.values()) {
      BoundaryRule rule = BoundaryRules.of(boundary);
      float[] columns = rule == null ? smooth(paths, boundary) : paths.places(boundary);
      float[] place = depths(map, columns, frame.ascans());
      float[] doubt = smoothDoubt(paths.doubts(boundary));
      lines.put(
          boundary,
          TracedLine.of(
              boundary,
              rule == null ? place : settled(frame, rule, place),
              place,
              spread(map, bends(paths.places(boundary), map.depthsPerRow()), frame.ascans()),
              spread(map, doubt, frame.ascans()),
              axial.micrometresPerPixel(),
              contrastToNoise));
    }
    return lines;
  }

  /** Returns the places of a boundary smoothed along the frame, sure ones weighing more. */
  private static float[] smooth(LayerPaths paths, Boundary boundary) {
    float[] weights = paths.doubts(boundary).clone();
    for (int c = 0; c < weights.length; c++) {
      weights[c] = 1 / (LEAST_DOUBT + weights[c]);
    }
    boolean straight = boundary == Boundary.ELM || boundary == Boundary.RPE_INNER;
    return LineSmoother.smooth(
        paths.places(boundary), weights, straight ? STRAIGHT_COLUMNS : SMOOTH_COLUMNS);
  }

  /** The smoother follows slopes beyond a steep onset of doubt; none is the least there can be. */
  private static float[] smoothDoubt(float[] doubts) {
    float[] smooth = LineSmoother.smooth(doubts, DOUBT_COLUMNS);
    for (int c = 0; c < smooth.length; c++) {
      smooth[c] = Math.max(0, smooth[c]);
    }
    return smooth;
  }

  /** Returns how far each place lies from the line through its surroundings, in pixels. */
  private static float[] bends(float[] places, int depthsPerRow) {
    float[] smooth = LineSmoother.smooth(places, BEND_COLUMNS);
    for (int c = 0; c < places.length; c++) {
      smooth[c] = depthsPerRow * (places[c] - smooth[c]);
    }
    return smooth;
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
