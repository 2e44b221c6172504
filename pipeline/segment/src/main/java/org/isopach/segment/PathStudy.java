package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.tissue.TissueMap;
import org.isopach.segment.tissue.TissueModel;

/**
 * Hands out what the boundaries of a frame cost, and the search through such costs, so that it can
 * be compared with other searches. For one thread.
 */
public final class PathStudy {
  private final LayerCosts costs;
  private final PathFinder finder = new PathFinder();

  private PathStudy(LayerCosts costs) {
    this.costs = costs;
  }

  /**
   * Looks at one frame of a scan.
   *
   * @throws FrameReadException when the frame cannot be decoded
   */
  public static PathStudy of(OctScan scan, int frame) throws FrameReadException {
    TissueMap map = TissueModel.shipped().look(new TissueFrames(scan).picture(frame));
    return new PathStudy(LayerCosts.whole(map));
  }

  /** Returns the number of columns of the costs. */
  public int columns() {
    return costs.columns();
  }

  /** Returns the number of rows of the costs. */
  public int rows() {
    return costs.places();
  }

  /**
   * Returns what a boundary costs in each cell, index {@code column * rows + row}, moved so that
   * the cheapest cell of each column costs 1. Boundaries are to be asked for outwards.
   */
  public float[] costs(Boundary boundary) {
    costs.goTo(boundary);
    float[] cells = costs.balance().clone();
    int n = rows();
    for (int c = 0; c < columns(); c++) {
      float least = Float.POSITIVE_INFINITY;
      for (int r = 0; r < n; r++) {
        least = Math.min(least, cells[c * n + r]);
      }
      for (int r = 0; r < n; r++) {
        cells[c * n + r] += 1 - least;
      }
    }
    return cells;
  }

  /**
   * Returns the row of the cheapest path in each column of any costs.
   *
   * @param cells index {@code column * rows + row}
   * @param maxStep largest move between neighbouring columns
   */
  public int[] cheapest(float[] cells, int columns, int rows, int maxStep) {
    return finder.cheapest(cells, columns, rows, maxStep, 0);
  }
}
