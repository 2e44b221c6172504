package org.isopach.segment;

import org.isopach.analysis.geometry.AxialScale;

/**
 * Traces one boundary through one strip at full resolution: finds the best edge path in the search
 * band, refines it below the pixel and smooths it.
 *
 * <p>The value of an edge at row r of a strip belongs to the border between rows r - 1 and r.
 */
final class EdgeTracer {
  private static final int MAX_STEP = 3;
  private static final double WIDE = 2.5;
  private static final float SHARP_SHARE = 0.6f;
  private static final double EXPECTATION_SCALE = 30;
  private static final float LEAST_WEIGHT = 0.02f;

  private final AxialScale axial;
  private final double ascanMicrometres;
  private final PathFinder finder = new PathFinder();

  /**
   * Makes a tracer.
   *
   * @param ascanMicrometres distance between A-scans in µm
   */
  EdgeTracer(AxialScale axial, double ascanMicrometres) {
    this.axial = axial;
    this.ascanMicrometres = ascanMicrometres;
  }

  /**
   * Traces a boundary.
   *
   * @param anchor depth in pixels at each A-scan of the line that the strip follows
   * @return depth in pixels at each A-scan
   */
  float[] trace(Strip strip, BoundaryRule rule, float[] anchor) {
    double middle = anchor[0] - strip.firstDepth(0);
    double reach = axial.toPixels(rule.reachMicrometres());
    int first = (int) Math.max(1, Math.floor(middle - reach + 0.5));
    int last = (int) Math.min(strip.rows() - 1, Math.ceil(middle + reach + 0.5));
    Edges edges = new Edges(strip.columns(), first, last - first + 1);
    fillEdges(strip, rule, edges);
    float[] costs = costs(rule, edges, middle);
    int[] path =
        finder.cheapest(costs, edges.columns, edges.rows, MAX_STEP, (float) rule.stiffness());
    return refine(strip, rule, edges, path);
  }

  /** The edges of a strip's rows {@code first} to {@code first + rows - 1}. */
  private static final class Edges {
    private final int columns;
    private final int first;
    private final int rows;
    private final float[] sharp;
    private final float[] broad;

    Edges(int columns, int first, int rows) {
      this.columns = columns;
      this.first = first;
      this.rows = rows;
      this.sharp = new float[columns * rows];
      this.broad = new float[columns * rows];
    }
  }

  private int pixels(double micrometres) {
    return (int) Math.max(2, Math.round(axial.toPixels(micrometres)));
  }

  private void fillEdges(Strip strip, BoundaryRule rule, Edges edges) {
    int near = pixels(rule.windowMicrometres());
    int wide = (int) Math.max(near + 1, Math.round(WIDE * near));
    double[] sums = new double[strip.rows() + 1];
    int sign = rule.polarity().sign();
    for (int c = 0; c < edges.columns; c++) {
      strip.sums(c, sums);
      for (int i = 0; i < edges.rows; i++) {
        int r = edges.first + i;
        edges.sharp[c * edges.rows + i] = sign * rise(sums, r, near);
        edges.broad[c * edges.rows + i] = sign * rise(sums, r, wide);
      }
    }
  }

  /** Returns how much brighter the rows from r on are than those before it; windows are cut. */
  private static float rise(double[] sums, int r, int window) {
    int a = Math.max(0, r - window);
    int b = Math.min(sums.length - 1, r + window);
    return (float) ((sums[b] - sums[r]) / (b - r) - (sums[r] - sums[a]) / (r - a));
  }

  private float[] costs(BoundaryRule rule, Edges edges, double middle) {
    double scale = axial.toPixels(EXPECTATION_SCALE);
    float[] leaving = new float[edges.rows];
    for (int i = 0; i < edges.rows; i++) {
      double z = (edges.first + i - 0.5 - middle) / scale;
      leaving[i] = (float) (rule.expectationWeight() * z * z);
    }
    float[] costs = new float[edges.sharp.length];
    for (int c = 0; c < edges.columns; c++) {
      for (int i = 0; i < edges.rows; i++) {
        int at = c * edges.rows + i;
        costs[at] =
            leaving[i] - SHARP_SHARE * edges.sharp[at] - (1 - SHARP_SHARE) * edges.broad[at];
      }
    }
    return costs;
  }

  private float[] refine(Strip strip, BoundaryRule rule, Edges edges, int[] path) {
    int n = edges.columns;
    float[] depth = new float[n];
    float[] weight = new float[n];
    for (int a = 0; a < n; a++) {
      int base = a * edges.rows;
      int peak = peakNear(edges, base, path[a]);
      double row = edges.first + peak + subPixel(edges, base, peak) - 0.5;
      depth[a] = (float) (strip.firstDepth(a) + row);
      weight[a] = Math.max(LEAST_WEIGHT, edges.sharp[base + peak]);
    }
    return LineSmoother.smooth(depth, weight, rule.smoothMicrometres() / ascanMicrometres);
  }

  /** Returns the strongest row within one row of the path, so that no other edge is jumped to. */
  private static int peakNear(Edges edges, int base, int row) {
    int best = row;
    for (int r = Math.max(0, row - 1); r <= Math.min(edges.rows - 1, row + 1); r++) {
      if (edges.sharp[base + r] > edges.sharp[base + best]) {
        best = r;
      }
    }
    return best;
  }

  /** Returns the offset, -0.5 to 0.5, of the top of the parabola through a peak and its sides. */
  private static double subPixel(Edges edges, int base, int row) {
    if (row == 0 || row == edges.rows - 1) {
      return 0;
    }
    double left = edges.sharp[base + row - 1];
    double right = edges.sharp[base + row + 1];
    double bend = left - 2 * edges.sharp[base + row] + right;
    if (bend >= -1e-9) {
      return 0;
    }
    return Math.max(-0.5, Math.min(0.5, 0.5 * (left - right) / bend));
  }
}
