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
  private static final float AGREEMENT_ROWS = 2.5f;
  private static final double MOST_APART = 0.04;

  private final Map<Boundary, float[]> rows = new EnumMap<>(Boundary.class);

  void set(Boundary boundary, float[] expected) {
    rows.put(boundary, expected);
  }

  /** Returns whether the paths of a frame lie where its neighbours expect them. */
  boolean agreesWith(LayerPaths paths) {
    for (Map.Entry<Boundary, float[]> entry : rows.entrySet()) {
      float[] places = paths.places(entry.getKey());
      int apart = 0;
      for (int c = 0; c < places.length; c++) {
        apart += Math.abs(places[c] - entry.getValue()[c]) > AGREEMENT_ROWS ? 1 : 0;
      }
      if (apart > MOST_APART * places.length) {
        return false;
      }
    }
    return true;
  }

  /** Adds what leaving the neighbours costs: quadratic near them, level from 8 rows on. */
  void addPull(Boundary boundary, float[] cells, LayerCosts costs, float pull) {
    float[] expected = rows.get(boundary);
    int places = costs.places();
    for (int c = 0; c < expected.length; c++) {
      float middle = expected[c] - costs.first(c);
      for (int p = 0; p < places; p++) {
        float away = Math.min(REACH_ROWS, Math.abs(p - middle));
        cells[c * places + p] += pull * away * away;
      }
    }
  }
}
