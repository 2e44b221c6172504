package org.isopach.segment;

import java.util.Arrays;
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
  private static final double RIVAL_DISTANCE = 14;
  private static final float LEAST_WEIGHT = 0.02f;
  private static final float FORBIDDEN = 1e6f;
  private static final double NOISE_APART_MICROMETRES = 80;
  private static final int NOISE_SAMPLING = 11;
  private static final double MAD_TO_SIGMA = 1.4826;

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
   * @param anchor depth in pixels of the anchor at each A-scan
   */
  TracedLine trace(Strip strip, BoundaryRule rule, float[] anchor) {
    float[] low = bandEdge(strip, anchor, rule.band().fromMicrometres());
    float[] high = bandEdge(strip, anchor, rule.band().toMicrometres());
    int first = (int) Math.max(1, Math.floor(min(low)));
    int last = (int) Math.min(strip.rows() - 1, Math.ceil(max(high)));
    if (last - first < 2) {
      return TracedLine.nothing(anchor);
    }
    Edges edges = new Edges(strip.columns(), first, last - first + 1);
    fillEdges(strip, rule, edges);
    float[] costs = costs(strip, rule, edges, anchor);
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

  private float[] bandEdge(Strip strip, float[] anchor, double micrometres) {
    float[] edge = new float[anchor.length];
    for (int a = 0; a < anchor.length; a++) {
      edge[a] = (float) (anchor[a] + axial.toPixels(micrometres) - strip.firstDepth(a));
    }
    return edge;
  }

  private static float min(float[] values) {
    float least = Float.POSITIVE_INFINITY;
    for (float value : values) {
      least = Math.min(least, value);
    }
    return least;
  }

  private static float max(float[] values) {
    float most = Float.NEGATIVE_INFINITY;
    for (float value : values) {
      most = Math.max(most, value);
    }
    return most;
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

  private float[] costs(Strip strip, BoundaryRule rule, Edges edges, float[] anchor) {
    float from = (float) axial.toPixels(rule.band().fromMicrometres());
    float to = (float) axial.toPixels(rule.band().toMicrometres());
    float expected = (float) axial.toPixels(rule.band().expectedMicrometres());
    float scale = (float) axial.toPixels(EXPECTATION_SCALE);
    float weight = (float) rule.band().expectationWeight();
    float[] costs = new float[edges.sharp.length];
    for (int c = 0; c < edges.columns; c++) {
      float offset = strip.firstDepth(c) - 0.5f + edges.first - anchor[c];
      for (int i = 0; i < edges.rows; i++) {
        int at = c * edges.rows + i;
        float away = offset + i;
        float z = (away - expected) / scale;
        float outside = away < from || away > to ? FORBIDDEN : 0;
        costs[at] =
            outside
                + weight * Math.min(9, z * z)
                - SHARP_SHARE * edges.sharp[at]
                - (1 - SHARP_SHARE) * edges.broad[at];
      }
    }
    return costs;
  }

  private TracedLine refine(Strip strip, BoundaryRule rule, Edges edges, int[] path) {
    int n = edges.columns;
    float[] depth = new float[n];
    float[] contrast = new float[n];
    float[] lead = new float[n];
    float[] weight = new float[n];
    int apart = pixels(RIVAL_DISTANCE);
    for (int a = 0; a < n; a++) {
      int base = a * edges.rows;
      int peak = peakNear(edges, base, path[a]);
      float value = edges.sharp[base + peak];
      double row = edges.first + peak + subPixel(edges, base, peak) - 0.5;
      depth[a] = (float) (strip.firstDepth(a) + row);
      contrast[a] = value;
      lead[a] = value - rival(edges, base, peak, apart);
      weight[a] = Math.max(LEAST_WEIGHT, value);
    }
    float[] smooth =
        LineSmoother.smooth(depth, weight, rule.smoothMicrometres() / ascanMicrometres);
    return new TracedLine(smooth, contrast, lead, noise(edges));
  }

  /**
   * Returns how much a rise varies between A-scans that share no speckle: from the median absolute
   * difference along the rows, where the layers, being flat in the strip, cancel.
   */
  private float noise(Edges edges) {
    int apart = (int) Math.max(4, Math.round(NOISE_APART_MICROMETRES / ascanMicrometres));
    float[] differences = new float[edges.sharp.length / NOISE_SAMPLING + 1];
    int n = 0;
    for (int i = 0; i + apart * edges.rows < edges.sharp.length; i += NOISE_SAMPLING) {
      differences[n++] = Math.abs(edges.sharp[i + apart * edges.rows] - edges.sharp[i]);
    }
    if (n == 0) {
      return 1;
    }
    Arrays.sort(differences, 0, n);
    return (float) Math.max(1e-4, differences[n / 2] * MAD_TO_SIGMA / Math.sqrt(2));
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

  private static float rival(Edges edges, int base, int peak, int apart) {
    float best = 0;
    for (int r = 0; r < edges.rows; r++) {
      if (Math.abs(r - peak) >= apart) {
        best = Math.max(best, edges.sharp[base + r]);
      }
    }
    return best;
  }

  /** Returns a line made smooth for use as a reference: running median, then Gaussian. */
  float[] smoothed(float[] line, double medianMicrometres, double sigmaMicrometres) {
    int half = (int) Math.max(1, Math.round(medianMicrometres / ascanMicrometres / 2));
    float[] median = new float[line.length];
    float[] window = new float[2 * half + 1];
    for (int a = 0; a < line.length; a++) {
      int reach = Math.min(half, Math.min(a, line.length - 1 - a));
      int n = 2 * reach + 1;
      System.arraycopy(line, a - reach, window, 0, n);
      Arrays.sort(window, 0, n);
      median[a] = window[reach];
    }
    return LineSmoother.smooth(median, sigmaMicrometres / ascanMicrometres);
  }
}
