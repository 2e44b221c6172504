package org.isopach.analysis.normal;

/**
 * By how much a group's mean differs with age, axial length or disc area.
 *
 * @param umPerUnit µm per year, per mm of axial length or per mm² of disc area
 * @param meanHoldsAt the age in years, axial length in mm or disc area in mm² at which the row's
 *     mean holds
 */
public record ReferenceSlope(double umPerUnit, double meanHoldsAt) {
  public ReferenceSlope {
    if (!Double.isFinite(umPerUnit) || !(meanHoldsAt > 0) || Double.isInfinite(meanHoldsAt)) {
      throw new IllegalArgumentException(
          "a slope and where the mean holds, were " + umPerUnit + ", " + meanHoldsAt);
    }
  }

  /** Returns by how much the mean at {@code value} differs from the row's, in µm. */
  public double shiftUm(double value) {
    return umPerUnit * (value - meanHoldsAt);
  }
}
