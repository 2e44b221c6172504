package org.isopach.segment;

import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;

/**
 * The boundaries of one frame on the tissue map: for each column the row each boundary lies before,
 * that place refined below the row, and how many cells around it are in doubt.
 */
final class LayerPaths {
  private final Map<Boundary, int[]> rows = new EnumMap<>(Boundary.class);
  private final Map<Boundary, float[]> places = new EnumMap<>(Boundary.class);
  private final Map<Boundary, float[]> doubts = new EnumMap<>(Boundary.class);

  /** Sets the path of a boundary; the arrays are kept. */
  void set(Boundary boundary, int[] row, float[] place, float[] doubt) {
    rows.put(boundary, row);
    places.put(boundary, place);
    doubts.put(boundary, doubt);
  }

  /** Returns the row that a boundary lies before, for each column. */
  int[] rows(Boundary boundary) {
    return rows.get(boundary);
  }

  /** Returns where a boundary lies; place p is the border between rows p - 1 and p. */
  float[] places(Boundary boundary) {
    return places.get(boundary);
  }

  /** Returns the expected number of cells near the boundary that lie on its wrong side. */
  float[] doubts(Boundary boundary) {
    return doubts.get(boundary);
  }
}
