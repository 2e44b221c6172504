package org.isopach.segment;

/** Finds the inner limiting membrane and the outer bands' inner edge on one coarse frame. */
final class CoarseSearch {
  private static final int MAX_STEP = 5;
  private static final float INNER_STIFFNESS = 0.03f;
  private static final float OUTER_STIFFNESS = 0.06f;
  private static final double LEAST_RETINA = 64;

  private final CoarseGrid grid;
  private final PathFinder finder = new PathFinder();

  CoarseSearch(CoarseGrid grid) {
    this.grid = grid;
  }

  /** Returns the outer path of a frame. */
  int[] outer(RetinaEvidence evidence) {
    float[] costs = new float[grid.columns() * grid.rows()];
    for (int i = 0; i < costs.length; i++) {
      costs[i] = -evidence.outer()[i];
    }
    return finder.cheapest(costs, grid.columns(), grid.rows(), MAX_STEP, OUTER_STIFFNESS);
  }

  /** Returns the inner path of a frame, above an outer path already found. */
  int[] inner(RetinaEvidence evidence, int[] outer) {
    int rows = grid.rows();
    int least = grid.rowsIn(LEAST_RETINA);
    float[] costs = new float[grid.columns() * rows];
    for (int c = 0; c < grid.columns(); c++) {
      for (int r = 0; r < rows; r++) {
        float forbidden = r > Math.max(0, outer[c] - least) ? 10 : 0;
        costs[c * rows + r] = forbidden - evidence.inner()[c * rows + r];
      }
    }
    return finder.cheapest(costs, grid.columns(), rows, MAX_STEP, INNER_STIFFNESS);
  }
}
