package org.isopach.segment;

import java.util.Arrays;
import org.isopach.analysis.geometry.AxialScale;

/**
 * Traces one boundary through one frame at full resolution: cuts the search band, finds the best
 * edge path, refines it below the pixel and smooths it.
 */
final class EdgeTracer {
  private static final int MAX_STEP = 3;
  private static final double DEPTH_SIGMA = 0.7;
  private static final double WIDE = 2.5;
  private static final double EXPECTATION_SCALE = 30;
  private static final double RIVAL_DISTANCE = 14;
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
   * @param anchor depth in pixels of the anchor at each A-scan
   */
  TracedLine trace(FrameView frame, BoundaryRule rule, float[] anchor) {
    int near = pixels(rule.windowMicrometres());
    int wide = (int) Math.max(near + 1, Math.round(WIDE * near));
    double first = axial.toPixels(rule.band().fromMicrometres()) - wide;
    int rows =
        2 * wide
            + (int)
                Math.ceil(
                    axial.toPixels(rule.band().toMicrometres() - rule.band().fromMicrometres()))
            + 1;
    float[] firstDepth = new float[anchor.length];
    for (int a = 0; a < anchor.length; a++) {
      firstDepth[a] = (float) (anchor[a] + first);
    }
    BandPicture band =
        BandPicture.cut(
            frame, firstDepth, rows, rule.lateralMicrometres() / ascanMicrometres, DEPTH_SIGMA);
    float[] sharp = signed(band.rise(near), rule.polarity().sign());
    float[] broad = signed(band.rise(wide), rule.polarity().sign());
    float[] costs = costs(rule, sharp, broad, rows, wide, first);
    int[] path = finder.cheapest(costs, anchor.length, rows, MAX_STEP, (float) rule.stiffness());
    return refine(rule, path, sharp, rows, wide, firstDepth);
  }

  private int pixels(double micrometres) {
    return (int) Math.max(2, Math.round(axial.toPixels(micrometres)));
  }

  private static float[] signed(float[] values, int sign) {
    if (sign < 0) {
      for (int i = 0; i < values.length; i++) {
        values[i] = -values[i];
      }
    }
    return values;
  }

  private float[] costs(
      BoundaryRule rule, float[] sharp, float[] broad, int rows, int margin, double first) {
    float[] expectation = new float[rows];
    for (int r = 0; r < rows; r++) {
      double away = axial.toMicrometres(first + r - 0.5) - rule.band().expectedMicrometres();
      double z = away / EXPECTATION_SCALE;
      expectation[r] = (float) (rule.band().expectationWeight() * Math.min(9, z * z));
    }
    float[] costs = new float[sharp.length];
    for (int i = 0; i < costs.length; i++) {
      int r = i % rows;
      boolean inside = r >= margin && r <= rows - margin;
      costs[i] =
          inside ? expectation[r] - 0.6f * sharp[i] - 0.4f * broad[i] : Float.POSITIVE_INFINITY;
    }
    return costs;
  }

  private TracedLine refine(
      BoundaryRule rule, int[] path, float[] sharp, int rows, int margin, float[] firstDepth) {
    int n = path.length;
    float[] depth = new float[n];
    float[] contrast = new float[n];
    float[] lead = new float[n];
    float[] weight = new float[n];
    int apart = pixels(RIVAL_DISTANCE);
    for (int a = 0; a < n; a++) {
      int base = a * rows;
      int peak = peakNear(sharp, base, path[a], rows);
      float value = sharp[base + peak];
      depth[a] = firstDepth[a] + (float) (peak + subPixel(sharp, base, peak) - 0.5);
      contrast[a] = value;
      lead[a] = value - rival(sharp, base, peak, apart, margin, rows);
      weight[a] = Math.max(LEAST_WEIGHT, value);
    }
    float[] smooth =
        LineSmoother.smooth(depth, weight, rule.smoothMicrometres() / ascanMicrometres);
    return new TracedLine(smooth, contrast, lead);
  }

  /** Returns the strongest row within one row of the path, so that no other edge is jumped to. */
  private static int peakNear(float[] rise, int base, int row, int rows) {
    int best = row;
    for (int r = Math.max(1, row - 1); r <= Math.min(rows - 2, row + 1); r++) {
      if (rise[base + r] > rise[base + best]) {
        best = r;
      }
    }
    return best;
  }

  /** Returns the offset, -0.5 to 0.5, of the top of the parabola through a peak and its sides. */
  private static double subPixel(float[] rise, int base, int row) {
    double left = rise[base + row - 1];
    double top = rise[base + row];
    double right = rise[base + row + 1];
    double bend = left - 2 * top + right;
    if (bend >= -1e-9) {
      return 0;
    }
    return Math.max(-0.5, Math.min(0.5, 0.5 * (left - right) / bend));
  }

  private static float rival(float[] rise, int base, int peak, int apart, int margin, int rows) {
    float best = 0;
    for (int r = margin; r <= rows - margin - 1; r++) {
      if (Math.abs(r - peak) >= apart) {
        best = Math.max(best, rise[base + r]);
      }
    }
    return best;
  }

  /** Returns the line made smooth for use as an anchor: running median, then Gaussian. */
  float[] anchorFrom(float[] line, double medianMicrometres, double smoothMicrometres) {
    int half = (int) Math.max(1, Math.round(medianMicrometres / ascanMicrometres / 2));
    float[] median = new float[line.length];
    float[] window = new float[2 * half + 1];
    for (int a = 0; a < line.length; a++) {
      int n = 0;
      int reach = Math.min(half, Math.min(a, line.length - 1 - a));
      for (int j = a - reach; j <= a + reach; j++) {
        window[n++] = line[j];
      }
      Arrays.sort(window, 0, n);
      median[a] = window[n / 2];
    }
    float[] equal = new float[line.length];
    Arrays.fill(equal, 1);
    return LineSmoother.smooth(median, equal, smoothMicrometres / ascanMicrometres);
  }
}
