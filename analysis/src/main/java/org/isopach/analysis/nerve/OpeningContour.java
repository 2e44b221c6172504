package org.isopach.analysis.nerve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * A closed polygon round a point. Area and centroid are exact for the polygon (the shoelace
 * formulas), reckoned in mm towards temporal and superior, so that mirrored eyes give mirrored
 * bits.
 */
final class OpeningContour {
  /**
   * Where a ray from the centroid meets the polygon.
   *
   * @param radiusMm distance from the centroid
   * @param corner the corner before the crossing
   * @param share how far the crossing lies from that corner to the next, from 0 to 1
   */
  record Crossing(double radiusMm, int corner, double share) {}

  private static final double ROUNDING = 1e-9;

  private final FundusPoint about;
  private final Laterality laterality;
  private final double[] temporalMm;
  private final double[] superiorMm;
  private final double areaMm2;
  private final double centreTemporalMm;
  private final double centreSuperiorMm;

  private OpeningContour(
      FundusPoint about, Laterality laterality, double[] temporalMm, double[] superiorMm) {
    this.about = about;
    this.laterality = laterality;
    this.temporalMm = temporalMm;
    this.superiorMm = superiorMm;
    double twice = 0;
    double t = 0;
    double s = 0;
    for (int i = 0; i < temporalMm.length; i++) {
      int next = (i + 1) % temporalMm.length;
      double cross = temporalMm[i] * superiorMm[next] - temporalMm[next] * superiorMm[i];
      twice += cross;
      t += (temporalMm[i] + temporalMm[next]) * cross;
      s += (superiorMm[i] + superiorMm[next]) * cross;
    }
    this.areaMm2 = twice / 2;
    this.centreTemporalMm = t / (3 * twice);
    this.centreSuperiorMm = s / (3 * twice);
  }

  static OpeningContour of(FundusPoint about, Laterality laterality, double[] radiusMm) {
    double[] temporal = new double[radiusMm.length];
    double[] superior = new double[radiusMm.length];
    for (int i = 0; i < radiusMm.length; i++) {
      double radians = Math.toRadians(i * DiscAngle.FULL_TURN / radiusMm.length);
      temporal[i] = radiusMm[i] * Math.cos(radians);
      superior[i] = radiusMm[i] * Math.sin(radians);
    }
    return new OpeningContour(about, laterality, temporal, superior);
  }

  OpeningContour scaledBy(double factor) {
    double[] temporal = Arrays.stream(temporalMm).map(mm -> factor * mm).toArray();
    double[] superior = Arrays.stream(superiorMm).map(mm -> factor * mm).toArray();
    FundusPoint moved = new FundusPoint(factor * about.xMm(), factor * about.yMm());
    return new OpeningContour(moved, laterality, temporal, superior);
  }

  double areaMm2() {
    return areaMm2;
  }

  FundusPoint centroid() {
    return place(centreTemporalMm, centreSuperiorMm);
  }

  List<FundusPoint> corners() {
    List<FundusPoint> corners = new ArrayList<>();
    for (int i = 0; i < temporalMm.length; i++) {
      corners.add(place(temporalMm[i], superiorMm[i]));
    }
    return List.copyOf(corners);
  }

  /** Returns mm from the centroid towards temporal of a corner. */
  double temporalMm(int corner) {
    return temporalMm[corner] - centreTemporalMm;
  }

  /** Returns mm from the centroid towards superior of a corner. */
  double superiorMm(int corner) {
    return superiorMm[corner] - centreSuperiorMm;
  }

  /**
   * Returns where the ray from the centroid at an angle leaves the polygon.
   *
   * @throws IllegalArgumentException when it does not, or leaves it more than once
   */
  Crossing crossing(double degrees) {
    double ut = Math.cos(Math.toRadians(degrees));
    double us = Math.sin(Math.toRadians(degrees));
    Crossing found = null;
    int n = temporalMm.length;
    for (int i = 0; i < n; i++) {
      int next = (i + 1) % n;
      double here = side(i, ut, us);
      double there = side(next, ut, us);
      if (here <= 0 && there > 0) {
        double share = snapped(here / (here - there));
        double along = (1 - share) * along(i, ut, us) + share * along(next, ut, us);
        if (along > 0 && found != null) {
          throw notStar(degrees);
        }
        found = along > 0 ? new Crossing(along, i, share) : found;
      }
    }
    if (found == null) {
      throw notStar(degrees);
    }
    return found;
  }

  /** Returns whether a place lies inside, by the number of edges that a ray from it crosses. */
  boolean contains(FundusPoint point) {
    double t = -laterality.nasalSign() * (point.xMm() - about.xMm());
    double s = about.yMm() - point.yMm();
    boolean inside = false;
    int n = temporalMm.length;
    for (int i = 0; i < n; i++) {
      int next = (i + 1) % n;
      if ((superiorMm[i] > s) != (superiorMm[next] > s)) {
        double share = (s - superiorMm[i]) / (superiorMm[next] - superiorMm[i]);
        inside ^= t < temporalMm[i] + share * (temporalMm[next] - temporalMm[i]);
      }
    }
    return inside;
  }

  /** Returns how far a corner lies to the left of the ray; corners run from right to left. */
  private double side(int corner, double ut, double us) {
    return ut * superiorMm(corner) - us * temporalMm(corner);
  }

  private double along(int corner, double ut, double us) {
    return ut * temporalMm(corner) + us * superiorMm(corner);
  }

  /** A ray that meets a corner but for rounding meets the corner. */
  private static double snapped(double share) {
    if (share < ROUNDING) {
      return 0;
    }
    return share > 1 - ROUNDING ? 1 : share;
  }

  private FundusPoint place(double temporal, double superior) {
    return new FundusPoint(about.xMm() - laterality.nasalSign() * temporal, about.yMm() - superior);
  }

  private static IllegalArgumentException notStar(double degrees) {
    return new IllegalArgumentException(
        "the contour is not seen once from its centroid at " + degrees + " degrees");
  }
}
