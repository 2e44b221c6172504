package org.isopach.analysis.geometry;

/**
 * A place on the fundus in millimetres, as the examiner sees it: x to the right, y down.
 *
 * <p>The origin is that of the frame the point is given in (see {@link FundusFrame}), or a landmark
 * where the method says so.
 *
 * @param xMm mm to the right
 * @param yMm mm down
 */
public record FundusPoint(double xMm, double yMm) {
  /** Returns the straight distance to another point of the same frame, in mm. */
  public double distanceMm(FundusPoint other) {
    return Math.hypot(other.xMm - xMm, other.yMm - yMm);
  }

  /** Returns this point seen from another origin. */
  public FundusPoint minus(FundusPoint origin) {
    return new FundusPoint(xMm - origin.xMm, yMm - origin.yMm);
  }

  /** Returns this point moved by another's coordinates. */
  public FundusPoint plus(FundusPoint shift) {
    return new FundusPoint(xMm + shift.xMm, yMm + shift.yMm);
  }
}
