package org.isopach.segment;

import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;

/**
 * Where the neighbours of a frame expect its boundaries: the mean of their places, each neighbour
 * moved by its median distance, which takes out the eye's axial motion.
 */
final class LayerExpectation {
  private static final float REACH_ROWS = 8;

  private final Map<Boundary, float[]> rows = new EnumMap<>(Boundary.class);

  void set(Boundary boundary, float[] expected) {
    rows.put(boundary, expected);
  }

  /** Returns the expected places of a boundary. */
  float[] rows(Boundary boundary) {
    return rows.get(boundary);
  }

  /**
   * Adds what leaving the neighbours costs: quadratic near them, level from 8 rows on.
   *
   * @param first the row that the first place of a column is before
   */
  void addPull(Boundary boundary, float[] cells, int first, int places, float pull) {
    float[] expected = rows.get(boundary);
    for (int c = 0; c < expected.length; c++) {
      for (int r = 0; r < places; r++) {
        float away = Math.min(REACH_ROWS, Math.abs(first + r - expected[c]));
        cells[c * places + r] += pull * away * away;
      }
    }
  }
}
