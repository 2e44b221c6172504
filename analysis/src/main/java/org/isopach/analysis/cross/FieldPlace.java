package org.isopach.analysis.cross;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;

/**
 * Where the pixels of a map lie: the centre of pixel {@code (row, column)} is {@code first + column
 * * across + row * down}, all in mm on the fundus. Any turn, scale and mirroring can be said so.
 *
 * @param first centre of the first pixel
 * @param across from a pixel to the one on its right in the object
 * @param down from a pixel to the one below it in the object
 */
public record FieldPlace(FundusPoint first, FundusPoint across, FundusPoint down) {
  private static final double LEAST_AREA_MM2 = 1e-12;

  /**
   * @throws IllegalArgumentException when a number is not finite or the pixels have no area
   */
  public FieldPlace {
    Objects.requireNonNull(first, "first");
    double area = across.xMm() * down.yMm() - across.yMm() * down.xMm();
    if (!(Math.abs(area) > LEAST_AREA_MM2)
        || Double.isInfinite(area)
        || !Double.isFinite(first.xMm() + first.yMm())) {
      throw new IllegalArgumentException("pixels of a map need an area, had " + area + " mm2");
    }
  }

  /** Returns the same field in the coordinates that a transform leads to. */
  public FieldPlace moved(FundusTransform transform) {
    FundusPoint there = transform.apply(first);
    return new FieldPlace(
        there,
        transform.apply(first.plus(across)).minus(there),
        transform.apply(first.plus(down)).minus(there));
  }

  /** Returns the same pixels seen from another origin. */
  public FieldPlace minus(FundusPoint origin) {
    return new FieldPlace(first.minus(origin), across, down);
  }

  /** Returns the same pixels with every length multiplied. */
  public FieldPlace times(double factor) {
    return new FieldPlace(times(first, factor), times(across, factor), times(down, factor));
  }

  private static FundusPoint times(FundusPoint point, double factor) {
    return new FundusPoint(point.xMm() * factor, point.yMm() * factor);
  }

  /** Returns the column at a point, with fractions; 0 at the centre of the first. */
  double column(double xMm, double yMm) {
    double dx = xMm - first.xMm();
    double dy = yMm - first.yMm();
    return (dx * down.yMm() - dy * down.xMm()) / area();
  }

  /** Returns the row at a point, with fractions; 0 at the centre of the first. */
  double row(double xMm, double yMm) {
    double dx = xMm - first.xMm();
    double dy = yMm - first.yMm();
    return (across.xMm() * dy - across.yMm() * dx) / area();
  }

  private double area() {
    return across.xMm() * down.yMm() - across.yMm() * down.xMm();
  }
}
