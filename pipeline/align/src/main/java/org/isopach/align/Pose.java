package org.isopach.align;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;

/**
 * A shift, turn and change of scale that takes places of one scan to places of another: {@code q =
 * to + (a·d.x − b·d.y, b·d.x + a·d.y) + (tx, ty)} with {@code d = p − from}; all in mm.
 *
 * @param from the point turned about, in the first scan's coordinates
 * @param to the point it goes to but for the shift, in the second scan's
 * @param a scale times the cosine of the turn (x right, y down: positive turns clockwise)
 * @param b scale times the sine of the turn
 */
record Pose(FundusPoint from, FundusPoint to, double a, double b, double tx, double ty) {
  /** Numbers that are sought: a, b, tx, ty. */
  static final int UNKNOWNS = 4;

  /** Returns this pose followed by a change of scale, a turn and a shift. */
  Pose changed(double scale, double radians, double shiftX, double shiftY) {
    double c = scale * Math.cos(radians);
    double s = scale * Math.sin(radians);
    return new Pose(from, to, c * a - s * b, s * a + c * b, tx + shiftX, ty + shiftY);
  }

  /** Returns this pose less a change of its {@link #UNKNOWNS} numbers. */
  Pose less(double[] change) {
    return new Pose(from, to, a - change[0], b - change[1], tx - change[2], ty - change[3]);
  }

  /** Returns the pose that a similarity is, about a point of the first scan. */
  static Pose of(FundusTransform transform, FundusPoint from) {
    return new Pose(from, transform.apply(from), transform.a(), transform.b(), 0, 0);
  }

  /** Returns the turn in degrees, positive clockwise. */
  double degrees() {
    return Math.toDegrees(Math.atan2(b, a));
  }

  /** Returns the same as a similarity from the first scan's coordinates to the second's. */
  FundusTransform transform() {
    FundusPoint origin =
        new FundusPoint(
            to.xMm() + tx - (a * from.xMm() - b * from.yMm()),
            to.yMm() + ty - (b * from.xMm() + a * from.yMm()));
    return FundusTransform.ofMatrix(a, b, origin);
  }

  /**
   * Returns the root mean square distance to another pose on a circle about {@code from}, in mm.
   */
  double apartMm(Pose other, double radiusMm) {
    FundusPoint mine = transform().apply(from);
    FundusPoint its = other.transform().apply(from);
    double turn = Math.hypot(a - other.a, b - other.b) * radiusMm;
    return Math.hypot(mine.distanceMm(its), turn);
  }
}
