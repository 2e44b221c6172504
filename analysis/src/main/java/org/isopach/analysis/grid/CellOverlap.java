package org.isopach.analysis.grid;

/**
 * The exact area that a square cell and a sector have in common.
 *
 * <p>Coordinates here are anatomical: {@code u} grows to nasal, {@code v} to superior, the landmark
 * at (0, 0), mm. The square is clipped to the sector's wedge, and the polygon that is left is
 * intersected with both discs in closed form.
 */
final class CellOverlap {
  /** A square clipped by two lines has at most six corners. */
  private static final int MOST_CORNERS = 8;

  private final Sector sector;
  private final boolean whole;
  private final double fromX;
  private final double fromY;
  private final double toX;
  private final double toY;

  private double[] u = new double[MOST_CORNERS];
  private double[] v = new double[MOST_CORNERS];
  private double[] spareU = new double[MOST_CORNERS];
  private double[] spareV = new double[MOST_CORNERS];
  private int corners;

  CellOverlap(Sector sector) {
    this.sector = sector;
    this.whole = sector.isFullTurn();
    this.fromX = Math.cos(Math.toRadians(sector.fromDegrees()));
    this.fromY = Math.sin(Math.toRadians(sector.fromDegrees()));
    this.toX = Math.cos(Math.toRadians(sector.toDegrees()));
    this.toY = Math.sin(Math.toRadians(sector.toDegrees()));
  }

  /** Returns the common area in mm² of the sector and the square of a middle and a side. */
  double areaMm2(double middleU, double middleV, double side) {
    double half = side / 2;
    double nearest = Math.hypot(gap(middleU, half), gap(middleV, half));
    double farthest = Math.hypot(Math.abs(middleU) + half, Math.abs(middleV) + half);
    if (nearest >= sector.outerRadiusMm() || farthest <= sector.innerRadiusMm()) {
      return 0;
    }
    square(middleU, middleV, half);
    boolean inWedge = whole || allInWedge();
    if (inWedge && nearest >= sector.innerRadiusMm() && farthest <= sector.outerRadiusMm()) {
      return side * side;
    }
    if (!inWedge) {
      keepLeftOf(fromX, fromY);
      keepLeftOf(-toX, -toY);
    }
    double area = commonWithDisc(sector.outerRadiusMm()) - commonWithDisc(sector.innerRadiusMm());
    return Math.max(0, area);
  }

  /** Returns the distance from 0 to the interval of a middle and a half width. */
  private static double gap(double middle, double half) {
    return Math.max(0, Math.abs(middle) - half);
  }

  private void square(double middleU, double middleV, double half) {
    corners = 4;
    for (int k = 0; k < corners; k++) {
      u[k] = k == 1 || k == 2 ? middleU + half : middleU - half;
      v[k] = k >= 2 ? middleV + half : middleV - half;
    }
  }

  private boolean allInWedge() {
    for (int k = 0; k < corners; k++) {
      if (fromX * v[k] - fromY * u[k] < 0 || u[k] * toY - v[k] * toX < 0) {
        return false;
      }
    }
    return true;
  }

  /** Keeps the part of the polygon to the left of the line from (0, 0) in a direction. */
  private void keepLeftOf(double directionX, double directionY) {
    int kept = 0;
    for (int k = 0; k < corners; k++) {
      int next = (k + 1) % corners;
      double here = directionX * v[k] - directionY * u[k];
      double there = directionX * v[next] - directionY * u[next];
      if (here >= 0) {
        spareU[kept] = u[k];
        spareV[kept++] = v[k];
      }
      if ((here < 0) != (there < 0)) {
        double t = here / (here - there);
        spareU[kept] = u[k] + t * (u[next] - u[k]);
        spareV[kept++] = v[k] + t * (v[next] - v[k]);
      }
    }
    double[] swapU = u;
    double[] swapV = v;
    u = spareU;
    v = spareV;
    spareU = swapU;
    spareV = swapV;
    corners = kept;
  }

  private double commonWithDisc(double radius) {
    double area = 0;
    for (int k = 0; k < corners && radius > 0; k++) {
      int next = (k + 1) % corners;
      area += commonWithTriangle(u[k], v[k], u[next], v[next], radius);
    }
    return area;
  }

  /** Returns the signed area that the disc shares with the triangle (0, p, q). */
  private static double commonWithTriangle(
      double pu, double pv, double qu, double qv, double radius) {
    double du = qu - pu;
    double dv = qv - pv;
    double a = du * du + dv * dv;
    double b = pu * du + pv * dv;
    double c = pu * pu + pv * pv - radius * radius;
    double root = b * b - a * c;
    if (!(root > 0)) {
      return pie(pu, pv, qu, qv, radius);
    }
    double enter = (-b - Math.sqrt(root)) / a;
    double leave = (-b + Math.sqrt(root)) / a;
    if (enter >= 1 || leave <= 0) {
      return pie(pu, pv, qu, qv, radius);
    }
    double t0 = Math.max(0, enter);
    double t1 = Math.min(1, leave);
    double eu = pu + t0 * du;
    double ev = pv + t0 * dv;
    double lu = pu + t1 * du;
    double lv = pv + t1 * dv;
    double area = (eu * lv - ev * lu) / 2;
    if (t0 > 0) {
      area += pie(pu, pv, eu, ev, radius);
    }
    if (t1 < 1) {
      area += pie(lu, lv, qu, qv, radius);
    }
    return area;
  }

  private static double pie(double pu, double pv, double qu, double qv, double radius) {
    return radius * radius / 2 * Math.atan2(pu * qv - pv * qu, pu * qu + pv * qv);
  }
}
