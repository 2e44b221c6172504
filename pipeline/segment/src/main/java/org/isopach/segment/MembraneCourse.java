package org.isopach.segment;

import java.util.Optional;
import org.apache.commons.math3.fitting.PolynomialCurveFitter;
import org.apache.commons.math3.fitting.WeightedObservedPoints;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.quality.QualityRules;

/**
 * The course of Bruch's membrane through a frame, drawn on over the disc: a curve of second degree,
 * or a line where only one side of the disc is in view, through its depths around the disc.
 */
final class MembraneCourse {
  private static final double FROM_MM = 0.08;
  private static final double TO_MM = 1.0;
  private static final int LEAST_POINTS = 12;

  private final double[] curve;

  private MembraneCourse(double[] curve) {
    this.curve = curve;
  }

  /**
   * Returns the course in a frame; empty where too little of the membrane was found.
   *
   * @param contour about where the disc ends
   */
  static Optional<MembraneCourse> of(
      BoundarySurface membrane, int frame, ScanPath path, FittedContour contour) {
    WeightedObservedPoints points = new WeightedObservedPoints();
    int before = 0;
    int behind = 0;
    int middle = nearest(frame, path, contour);
    for (int a = 0; a < membrane.ascans(); a++) {
      double outside = contour.outsideMm(path.point(frame, a));
      boolean sure = membrane.confidence(frame, a) >= QualityRules.DEFAULT.leastConfidence();
      if (sure && outside >= FROM_MM && outside <= TO_MM) {
        points.add(at(a, membrane.ascans()), membrane.depthPx(frame, a));
        before += a < middle ? 1 : 0;
        behind += a < middle ? 0 : 1;
      }
    }
    if (before + behind < LEAST_POINTS) {
      return Optional.empty();
    }
    int degree = Math.min(before, behind) < LEAST_POINTS ? 1 : 2;
    return Optional.of(
        new MembraneCourse(PolynomialCurveFitter.create(degree).fit(points.toList())));
  }

  private static int nearest(int frame, ScanPath path, FittedContour contour) {
    int nearest = 0;
    for (int a = 1; a < path.ascans(); a++) {
      double far = path.point(frame, a).distanceMm(contour.about());
      nearest = far < path.point(frame, nearest).distanceMm(contour.about()) ? a : nearest;
    }
    return nearest;
  }

  /** From -1 to 1, so that the curve's terms are of one size. */
  private static double at(double ascan, int ascans) {
    return 2 * ascan / (ascans - 1) - 1;
  }

  /** Returns the depth in pixels of the course at an A-scan. */
  double depthPx(double ascan, int ascans) {
    double x = at(ascan, ascans);
    double depth = 0;
    for (int k = curve.length - 1; k >= 0; k--) {
      depth = depth * x + curve[k];
    }
    return depth;
  }
}
