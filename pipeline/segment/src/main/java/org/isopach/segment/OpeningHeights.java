package org.isopach.segment;

import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.quality.QualityRules;

/**
 * The height of Bruch's membrane where it ends: in each direction the line through its heights just
 * outside of the opening, drawn on to the edge; where there are too few, between the directions on
 * either side.
 */
final class OpeningHeights {
  private static final double HALF_ANGLE = Math.toRadians(10);
  private static final double FROM_MM = 0.015;
  private static final double TO_MM = 0.30;
  private static final int LEAST_POINTS = 6;
  private static final double DEGREES_APART = 360.0 / DiscOpening.SAMPLES;
  private static final double WIDEST_GAP_DEGREES = 30;

  private final double[] heightUm;
  private final boolean[] sure;
  private final boolean missing;

  private OpeningHeights(double[] heightUm, boolean[] sure, boolean missing) {
    this.heightUm = heightUm;
    this.sure = sure;
    this.missing = missing;
  }

  /** Returns the heights round a contour, by the levels of the frames. */
  static OpeningHeights of(
      FittedContour contour,
      BoundarySurface membrane,
      ScanPath path,
      AxialScale axial,
      FrameLevels levels) {
    EdgeLine[] lines = new EdgeLine[DiscOpening.SAMPLES];
    for (int k = 0; k < lines.length; k++) {
      lines[k] = new EdgeLine();
    }
    for (int f = 0; f < membrane.frames(); f++) {
      for (int a = 0; a < membrane.ascans(); a++) {
        if (membrane.confidence(f, a) < QualityRules.DEFAULT.leastConfidence()) {
          continue;
        }
        FundusPoint place = path.point(f, a);
        double outside = contour.outsideMm(place);
        if (outside >= FROM_MM && outside <= TO_MM) {
          double height = levels.shiftUm(f) - axial.toMicrometres(membrane.depthPx(f, a));
          add(lines, place.minus(contour.about()), outside, height);
        }
      }
    }
    return filled(lines);
  }

  private static void add(EdgeLine[] lines, FundusPoint away, double outside, double height) {
    double angle = Math.atan2(away.yMm(), away.xMm());
    for (int k = 0; k < lines.length; k++) {
      double apart = Math.IEEEremainder(angle - OpeningSight.pictureAngle(k), 2 * Math.PI);
      if (Math.abs(apart) <= HALF_ANGLE) {
        double near = 1 - outside / (1.2 * TO_MM);
        lines[k].add(outside, height, near * (1 - Math.abs(apart) / (1.2 * HALF_ANGLE)));
      }
    }
  }

  private static OpeningHeights filled(EdgeLine[] lines) {
    int n = lines.length;
    double[] heights = new double[n];
    int known = 0;
    for (int k = 0; k < n; k++) {
      heights[k] = lines[k].atEdge();
      known += Double.isNaN(heights[k]) ? 0 : 1;
    }
    if (known < n / 2) {
      return new OpeningHeights(heights, new boolean[n], true);
    }
    double[] filled = heights.clone();
    boolean[] sure = new boolean[n];
    for (int k = 0; k < n; k++) {
      sure[k] = true;
      if (Double.isNaN(heights[k])) {
        int before = 1;
        int behind = 1;
        while (Double.isNaN(heights[Math.floorMod(k - before, n)])) {
          before++;
        }
        while (Double.isNaN(heights[Math.floorMod(k + behind, n)])) {
          behind++;
        }
        double left = heights[Math.floorMod(k - before, n)];
        double right = heights[Math.floorMod(k + behind, n)];
        filled[k] = (behind * left + before * right) / (before + behind);
        sure[k] = (before + behind) * DEGREES_APART <= WIDEST_GAP_DEGREES;
      }
    }
    return new OpeningHeights(filled, sure, false);
  }

  /**
   * Returns where the height was found, or lies between two that were, at most 30 degrees apart.
   */
  boolean[] sure() {
    return sure.clone();
  }

  double[] heightUm() {
    return heightUm.clone();
  }

  /** Returns whether too little of the membrane was found. */
  boolean missing() {
    return missing;
  }

  /** A weighted line of height over the distance from the edge. */
  private static final class EdgeLine {
    private double w;
    private double x;
    private double xx;
    private double y;
    private double xy;
    private int count;

    void add(double outside, double height, double weight) {
      if (weight <= 0) {
        return;
      }
      w += weight;
      x += weight * outside;
      xx += weight * outside * outside;
      y += weight * height;
      xy += weight * outside * height;
      count++;
    }

    /** Height at the edge; a slope that the points do not bear is held flat. */
    double atEdge() {
      if (count < LEAST_POINTS) {
        return Double.NaN;
      }
      double spread = xx - x * x / w;
      double slope = spread > 1e-9 ? (xy - x * y / w) / (spread + 2e-4 * w) : 0;
      return y / w - slope * x / w;
    }
  }
}
