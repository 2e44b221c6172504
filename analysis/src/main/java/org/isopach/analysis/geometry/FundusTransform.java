package org.isopach.analysis.geometry;

import java.util.Objects;

/**
 * A similarity of the fundus plane: every length multiplied, then everything turned, then moved.
 *
 * <p>Coordinates are mm with x to the right and y down, as the examiner sees the eye. A positive
 * rotation turns the picture clockwise: at 90 degrees a point to the right of the origin goes below
 * it. With scale s and rotation r,
 *
 * <pre>
 *   x' = s cos(r) x - s sin(r) y + tx
 *   y' = s sin(r) x + s cos(r) y + ty
 * </pre>
 *
 * <p>Reflections are not among these. Immutable. A mirrored transform of mirrored points gives the
 * mirror image to the last bit.
 */
public final class FundusTransform {
  /** Leaves every point where it is. */
  public static final FundusTransform IDENTITY = new FundusTransform(1, 0, 0, 0);

  private final double along;
  private final double across;
  private final double xMm;
  private final double yMm;

  private FundusTransform(double along, double across, double xMm, double yMm) {
    this.along = along;
    this.across = across;
    this.xMm = xMm;
    this.yMm = yMm;
    double determinant = along * along + across * across;
    if (!(determinant > 0) || !Double.isFinite(determinant)) {
      throw new IllegalArgumentException("scale must be finite and positive");
    }
    if (!Double.isFinite(xMm) || !Double.isFinite(yMm)) {
      throw new IllegalArgumentException("translation must be finite, was " + xMm + ", " + yMm);
    }
  }

  /**
   * Returns the similarity that scales and turns about a point and then moves: {@code p' = about +
   * s R (p - about) + translation}.
   *
   * @param scale what lengths are multiplied with, finite and positive
   * @param rotationDegrees degrees, positive clockwise as the examiner sees the picture
   * @param about the point that scaling and turning leave in place
   * @param translation mm to the right and down, added last
   */
  public static FundusTransform of(
      double scale, double rotationDegrees, FundusPoint about, FundusPoint translation) {
    if (!(scale > 0) || !Double.isFinite(rotationDegrees)) {
      throw new IllegalArgumentException(
          "scale must be positive and rotation finite, were " + scale + ", " + rotationDegrees);
    }
    double radians = Math.toRadians(rotationDegrees);
    double along = scale * Math.cos(radians);
    double across = scale * Math.sin(radians);
    FundusPoint end = about.plus(translation);
    return new FundusTransform(
        along,
        across,
        end.xMm() - (along * about.xMm() - across * about.yMm()),
        end.yMm() - (across * about.xMm() + along * about.yMm()));
  }

  /** Returns the move by some mm. */
  public static FundusTransform translation(FundusPoint mm) {
    return new FundusTransform(1, 0, mm.xMm(), mm.yMm());
  }

  /**
   * Returns the similarity of the matrix {@code (a, -b, x; b, a, y)}.
   *
   * @param a scale times cosine of the rotation
   * @param b scale times sine of the rotation
   * @param translation where the origin goes, mm
   * @throws IllegalArgumentException when a value is not finite or both a and b are 0
   */
  public static FundusTransform ofMatrix(double a, double b, FundusPoint translation) {
    return new FundusTransform(a, b, translation.xMm(), translation.yMm());
  }

  /** Returns what lengths are multiplied with. */
  public double scale() {
    return Math.hypot(along, across);
  }

  /** Returns the rotation in degrees, above -180 up to 180, positive clockwise on the picture. */
  public double rotationDegrees() {
    return Math.toDegrees(Math.atan2(across, along));
  }

  /** Returns where the origin goes, in mm. */
  public FundusPoint translation() {
    return new FundusPoint(xMm, yMm);
  }

  /** Returns scale times the cosine of the rotation: the matrix's diagonal. */
  public double a() {
    return along;
  }

  /** Returns scale times the sine of the rotation: x into y; minus it is y into x. */
  public double b() {
    return across;
  }

  /** Returns where a point goes. */
  public FundusPoint apply(FundusPoint point) {
    return new FundusPoint(
        along * point.xMm() - across * point.yMm() + xMm,
        across * point.xMm() + along * point.yMm() + yMm);
  }

  /** Returns the similarity that takes every point back. */
  public FundusTransform inverse() {
    double determinant = along * along + across * across;
    double a = along / determinant;
    double b = -across / determinant;
    return new FundusTransform(a, b, -(a * xMm - b * yMm), -(b * xMm + a * yMm));
  }

  /** Returns the similarity that does this one first, then the next. */
  public FundusTransform then(FundusTransform next) {
    FundusPoint origin = next.apply(translation());
    return new FundusTransform(
        next.along * along - next.across * across,
        next.across * along + next.along * across,
        origin.xMm(),
        origin.yMm());
  }

  /**
   * Returns the same similarity between coordinates whose lengths were multiplied, as for axial
   * length; origins stay in place.
   *
   * @param fromFactor what the lengths of the points given are multiplied with
   * @param toFactor what the lengths of the points returned are multiplied with
   */
  public FundusTransform withLengths(double fromFactor, double toFactor) {
    double ratio = toFactor / fromFactor;
    return new FundusTransform(along * ratio, across * ratio, xMm * toFactor, yMm * toFactor);
  }

  /** Returns this similarity seen in a mirror that negates x. */
  public FundusTransform mirrored() {
    return new FundusTransform(along, -across, -xMm, yMm);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof FundusTransform that
        && along == that.along
        && across == that.across
        && xMm == that.xMm
        && yMm == that.yMm;
  }

  @Override
  public int hashCode() {
    return Objects.hash(along + 0.0, across + 0.0, xMm + 0.0, yMm + 0.0);
  }

  @Override
  public String toString() {
    return "scale "
        + scale()
        + ", "
        + rotationDegrees()
        + " degrees clockwise, origin to "
        + xMm
        + ", "
        + yMm
        + " mm";
  }
}
