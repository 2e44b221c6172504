package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.TissueMap;

/** Finds all boundaries of one frame on its tissue map. One instance per thread. */
final class LayerSearch {
  private static final int MAX_STEP = 8;
  private static final float STIFFNESS = 0.10f;
  private static final int REFINE_ROWS = 3;

  private final PathFinder finder = new PathFinder();

  /**
   * Returns the cheapest paths.
   *
   * @param expected where neighbouring frames expect each boundary, or null to ignore them
   * @param pull cost of being one row away from there, per column
   */
  LayerPaths search(TissueMap map, LayerExpectation expected, float pull) {
    LayerPaths paths = new LayerPaths();
    int[] least = new int[map.columns()];
    LayerCosts costs = new LayerCosts(map);
    for (Boundary boundary : Boundary.values()) {
      costs.goTo(boundary);
      float[] cells = costs.balance();
      if (expected != null && pull > 0) {
        cells = cells.clone();
        expected.addPull(boundary, cells, costs.places(), pull);
      }
      int[] path = finder.cheapest(cells, costs.columns(), costs.places(), MAX_STEP, STIFFNESS);
      keepOrder(path, least);
      paths.set(boundary, path, places(costs, path), doubts(costs, path));
    }
    return paths;
  }

  /** Paths are nested but for ties and the pull of neighbours; what is left is cut off. */
  private static void keepOrder(int[] path, int[] least) {
    for (int c = 0; c < path.length; c++) {
      path[c] = Math.max(path[c], least[c]);
      least[c] = path[c];
    }
  }

  /** The place at which as much of the neighbourhood lies inside as the probabilities say. */
  private static float[] places(LayerCosts costs, int[] path) {
    float[] places = new float[path.length];
    int n = costs.places();
    for (int c = 0; c < path.length; c++) {
      int reach = Math.min(REFINE_ROWS, Math.min(path[c], n - 1 - path[c]));
      float change =
          costs.balance()[c * n + path[c] + reach] - costs.balance()[c * n + path[c] - reach];
      places[c] = path[c] - change / 2;
    }
    return places;
  }

  private static float[] doubts(LayerCosts costs, int[] path) {
    float[] doubts = new float[path.length];
    int n = costs.places();
    for (int c = 0; c < path.length; c++) {
      float doubt = 0;
      for (int r = path[c] - REFINE_ROWS; r < path[c] + REFINE_ROWS; r++) {
        if (r < 0 || r >= n - 1) {
          doubt += 0.5f;
        } else {
          float side = costs.balance()[c * n + r + 1] - costs.balance()[c * n + r];
          boolean inside = r < path[c];
          doubt += (inside ? 1 + side : 1 - side) / 2;
        }
      }
      doubts[c] = doubt;
    }
    return doubts;
  }
}
