package org.isopach.analysis.nerve;

import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * The angle round a centre, in degrees from 0 to below 360: 0 temporal, 90 superior, 180 nasal, 270
 * inferior, in either eye. The only place where such an angle is made from coordinates and back.
 *
 * <p>It is counted from the picture's horizontal; {@link AngleZero} turns it to the line from fovea
 * to disc. Places that mirror one another in the two eyes have the same angle to the last bit.
 */
public final class DiscAngle {
  /** A full turn in degrees. */
  public static final double FULL_TURN = 360;

  private DiscAngle() {}

  /**
   * Returns the angle of a point seen from a centre; 0 when they coincide.
   *
   * @param point mm, x to the right and y down as the examiner sees the eye
   * @param centre in the same coordinates
   */
  public static double ofDegrees(FundusPoint point, FundusPoint centre, Laterality eye) {
    double temporal = -eye.nasalSign() * (point.xMm() - centre.xMm());
    double superior = centre.yMm() - point.yMm();
    return normal(Math.toDegrees(Math.atan2(superior + 0.0, temporal + 0.0)));
  }

  /**
   * Returns the place at a distance and an angle from a centre.
   *
   * @param radiusMm distance in mm
   * @param degrees the angle, any number of turns
   */
  public static FundusPoint place(
      FundusPoint centre, double radiusMm, double degrees, Laterality eye) {
    double radians = Math.toRadians(degrees);
    return new FundusPoint(
        centre.xMm() - eye.nasalSign() * (radiusMm * Math.cos(radians)),
        centre.yMm() - radiusMm * Math.sin(radians));
  }

  /** Returns the angle from 0 to below 360 that differs by whole turns. */
  public static double normal(double degrees) {
    double rest = degrees % FULL_TURN;
    double positive = rest < 0 ? rest + FULL_TURN : rest + 0.0;
    return positive >= FULL_TURN ? 0 : positive;
  }

  /** Returns the angle from -180 to below 180 that differs by whole turns. */
  public static double signed(double degrees) {
    double turned = normal(degrees);
    return turned >= FULL_TURN / 2 ? turned - FULL_TURN : turned;
  }
}
