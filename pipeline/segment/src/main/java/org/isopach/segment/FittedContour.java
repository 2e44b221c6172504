package org.isopach.segment;

import org.isopach.analysis.geometry.FundusPoint;

/**
 * A closed smooth contour: the radius round a point as a Fourier series of the angle. The angle is
 * that of the picture: 0 to the right, growing downwards.
 */
final class FittedContour {
  /** Highest harmonic. */
  static final int ORDER = 4;

  static final int TERMS = 1 + 2 * ORDER;

  private final FundusPoint about;
  private final double[] terms;

  /** Makes a contour of the terms 1, cos a, sin a, cos 2a, and so on, in mm. */
  FittedContour(FundusPoint about, double[] terms) {
    this.about = about;
    this.terms = terms.clone();
  }

  /** Returns a circle. */
  static FittedContour circle(FundusPoint about, double radiusMm) {
    double[] terms = new double[TERMS];
    terms[0] = radiusMm;
    return new FittedContour(about, terms);
  }

  FundusPoint about() {
    return about;
  }

  double term(int k) {
    return terms[k];
  }

  /** Returns the radius in mm in a direction in radians. */
  double radiusMm(double angle) {
    double radius = terms[0];
    for (int k = 1; k <= ORDER; k++) {
      radius += terms[2 * k - 1] * Math.cos(k * angle) + terms[2 * k] * Math.sin(k * angle);
    }
    return radius;
  }

  /** Fills in the value of each term's wave in a direction. */
  static void waves(double angle, double[] into) {
    into[0] = 1;
    for (int k = 1; k <= ORDER; k++) {
      into[2 * k - 1] = Math.cos(k * angle);
      into[2 * k] = Math.sin(k * angle);
    }
  }

  /** Returns how far a place lies outside of the contour along its radius, in mm. */
  double outsideMm(FundusPoint place) {
    FundusPoint away = place.minus(about);
    double angle = Math.atan2(away.yMm(), away.xMm());
    return Math.hypot(away.xMm(), away.yMm()) - radiusMm(angle);
  }

  /** Returns the middle of the enclosed area, by the midpoint rule over the angle. */
  FundusPoint centroid() {
    int steps = 360;
    double area = 0;
    double x = 0;
    double y = 0;
    for (int i = 0; i < steps; i++) {
      double angle = 2 * Math.PI * i / steps;
      double r = radiusMm(angle);
      area += r * r / 2;
      x += r * r * r / 3 * Math.cos(angle);
      y += r * r * r / 3 * Math.sin(angle);
    }
    return about.plus(new FundusPoint(x / area, y / area));
  }
}
