package org.isopach.segment;

import java.util.Arrays;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.TissueMap;

/** Finds all boundaries of one frame on its tissue map. One instance per thread. */
final class LayerSearch {
  private static final int MAX_STEP = 8;
  private static final float STIFFNESS = 0.10f;
  private static final int REFINE_ROWS = 3;
  private static final int SPARE_ROWS = 10;

  private final PathFinder finder = new PathFinder();

  /** Returns the cheapest paths through a frame by itself. */
  LayerPaths search(TissueMap map) {
    LayerCosts whole = new LayerCosts(map, 0, map.rows());
    whole.goTo(Boundary.ILM);
    int least = Arrays.stream(path(whole)).min().orElse(0);
    whole.goTo(Boundary.CHOROID_SCLERA);
    int most = Arrays.stream(path(whole)).max().orElse(map.rows());
    return search(costs(map, least, most), null, 0);
  }

  /**
   * Returns the cheapest paths, drawn to what neighbouring frames expect.
   *
   * @param before the paths of the frame so far
   * @param expected where neighbouring frames expect each boundary
   * @param pull cost of being one row away from there, per column
   */
  LayerPaths search(TissueMap map, LayerPaths before, LayerExpectation expected, float pull) {
    int least = Arrays.stream(before.rows(Boundary.ILM)).min().orElse(0);
    int most = Arrays.stream(before.rows(Boundary.CHOROID_SCLERA)).max().orElse(map.rows());
    return search(costs(map, least, most), expected, pull);
  }

  private static LayerCosts costs(TissueMap map, int least, int most) {
    int first = Math.max(0, least - SPARE_ROWS);
    int end = Math.min(map.rows(), most + SPARE_ROWS);
    return new LayerCosts(map, first, Math.max(first + 1, end));
  }

  private LayerPaths search(LayerCosts costs, LayerExpectation expected, float pull) {
    LayerPaths paths = new LayerPaths();
    int[] least = new int[costs.columns()];
    for (Boundary boundary : Boundary.values()) {
      costs.goTo(boundary);
      float[] cells = costs.balance();
      if (expected != null) {
        cells = cells.clone();
        expected.addPull(boundary, cells, costs.first(), costs.places(), pull);
      }
      int[] path = finder.cheapest(cells, costs.columns(), costs.places(), MAX_STEP, STIFFNESS);
      keepOrder(path, least);
      paths.set(boundary, rows(costs, path), places(costs, path), doubts(costs, path));
    }
    return paths;
  }

  private int[] path(LayerCosts costs) {
    return finder.cheapest(costs.balance(), costs.columns(), costs.places(), MAX_STEP, STIFFNESS);
  }

  /** Paths are nested but for ties and the pull of neighbours; what is left is cut off. */
  private static void keepOrder(int[] path, int[] least) {
    for (int c = 0; c < path.length; c++) {
      path[c] = Math.max(path[c], least[c]);
      least[c] = path[c];
    }
  }

  private static int[] rows(LayerCosts costs, int[] path) {
    return Arrays.stream(path).map(place -> place + costs.first()).toArray();
  }

  /** The place at which as much of the neighbourhood lies inside as the probabilities say. */
  private static float[] places(LayerCosts costs, int[] path) {
    float[] places = new float[path.length];
    int n = costs.places();
    for (int c = 0; c < path.length; c++) {
      int reach = Math.min(REFINE_ROWS, Math.min(path[c], n - 1 - path[c]));
      float change =
          costs.balance()[c * n + path[c] + reach] - costs.balance()[c * n + path[c] - reach];
      places[c] = costs.first() + path[c] - change / 2;
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
