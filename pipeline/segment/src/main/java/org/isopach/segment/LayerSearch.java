package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.TissueMap;

/**
 * Finds all boundaries of one frame on its tissue map. The search runs in a band of rows that
 * follows the course of Bruch's membrane, so that a slope of the whole retina costs nothing. One
 * instance per thread.
 */
final class LayerSearch {
  private static final double COURSE_COLUMNS = 9;
  private static final int REFINE_ROWS = 3;
  private static final int SPARE_ROWS = 10;
  private static final double CHOROID_MICROMETRES = 480;

  private final PathFinder finder = new PathFinder();
  private final SearchRules rules;
  private final int choroidRows;

  /**
   * Makes a search.
   *
   * @param rules how far paths may move
   * @param rowMicrometres depth of a row of the maps
   */
  LayerSearch(SearchRules rules, double rowMicrometres) {
    this.rules = rules;
    this.choroidRows = (int) Math.round(CHOROID_MICROMETRES / rowMicrometres);
  }

  /** Returns the cheapest paths through a frame by itself. */
  LayerPaths search(TissueMap map) {
    LayerCosts whole = LayerCosts.whole(map);
    whole.goTo(Boundary.ILM);
    int[] inner = firstPath(whole);
    whole.goTo(Boundary.BM);
    return search(band(map, inner, firstPath(whole)), null, 0);
  }

  /**
   * Returns the cheapest paths, drawn to what neighbouring frames expect.
   *
   * @param before the paths of the frame so far
   * @param expected where neighbouring frames expect each boundary
   * @param pull cost of being one row away from there, per column
   */
  LayerPaths search(TissueMap map, LayerPaths before, LayerExpectation expected, float pull) {
    LayerCosts band = band(map, before.rows(Boundary.ILM), before.rows(Boundary.BM));
    return search(band, expected, pull);
  }

  private int[] firstPath(LayerCosts costs) {
    return finder.cheapest(
        costs.balance(),
        costs.columns(),
        costs.places(),
        rules.firstMaxStep(),
        rules.firstStiffness());
  }

  /** A band of equal height from above the retina to behind the choroid. */
  private LayerCosts band(TissueMap map, int[] inner, int[] outer) {
    float[] path = new float[outer.length];
    for (int c = 0; c < path.length; c++) {
      path[c] = outer[c];
    }
    float[] course = LineSmoother.smooth(path, COURSE_COLUMNS);
    int[] first = new int[course.length];
    int above = 0;
    int below = 0;
    for (int c = 0; c < first.length; c++) {
      first[c] = Math.round(course[c]);
      above = Math.max(above, first[c] - inner[c]);
      below = Math.max(below, Math.max(outer[c], inner[c]) - first[c]);
    }
    for (int c = 0; c < first.length; c++) {
      first[c] -= above + SPARE_ROWS;
    }
    return new LayerCosts(map, first, above + below + choroidRows + 2 * SPARE_ROWS);
  }

  private LayerPaths search(LayerCosts costs, LayerExpectation expected, float pull) {
    LayerPaths paths = new LayerPaths();
    int[] least = new int[costs.columns()];
    for (Boundary boundary : Boundary.values()) {
      costs.goTo(boundary);
      float[] cells = costs.balance();
      if (expected != null) {
        cells = cells.clone();
        expected.addPull(boundary, cells, costs, pull);
      }
      int[] path =
          finder.cheapest(
              cells,
              costs.columns(),
              costs.places(),
              rules.maxStep(boundary),
              rules.stiffness(boundary));
      keepOrder(path, least);
      paths.set(boundary, rows(costs, path), places(costs, path), doubts(costs, path));
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

  private static int[] rows(LayerCosts costs, int[] path) {
    int[] rows = new int[path.length];
    for (int c = 0; c < path.length; c++) {
      rows[c] = costs.first(c) + path[c];
    }
    return rows;
  }

  /** The place at which as much of the neighbourhood lies inside as the probabilities say. */
  private static float[] places(LayerCosts costs, int[] path) {
    float[] places = new float[path.length];
    int n = costs.places();
    for (int c = 0; c < path.length; c++) {
      int reach = Math.min(REFINE_ROWS, Math.min(path[c], n - 1 - path[c]));
      float change =
          costs.balance()[c * n + path[c] + reach] - costs.balance()[c * n + path[c] - reach];
      places[c] = costs.first(c) + path[c] - change / 2;
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
