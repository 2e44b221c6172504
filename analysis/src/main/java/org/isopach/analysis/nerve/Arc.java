package org.isopach.analysis.nerve;

import java.util.Objects;

/**
 * Part of a circle round the disc: from an angle, inclusive, over a width, as {@link DiscAngle}
 * counts.
 *
 * @param name unique within a scheme
 * @param fromDegrees where it begins, from 0 to below 360
 * @param widthDegrees how far it reaches towards superior from temporal, above 0 and up to 360
 */
public record Arc(String name, double fromDegrees, double widthDegrees) {
  public Arc {
    Objects.requireNonNull(name, "name");
    if (!(fromDegrees >= 0 && fromDegrees < DiscAngle.FULL_TURN)) {
      throw new IllegalArgumentException(
          name + ": an arc begins from 0 to below 360 degrees, was " + fromDegrees);
    }
    if (!(widthDegrees > 0 && widthDegrees <= DiscAngle.FULL_TURN)) {
      throw new IllegalArgumentException(
          name + ": an arc is above 0 and up to 360 degrees wide, was " + widthDegrees);
    }
  }

  /** Returns whether an angle lies in the arc; its beginning does, its end does not. */
  public boolean contains(double degrees) {
    return DiscAngle.normal(degrees - fromDegrees) < widthDegrees;
  }

  /** Returns how many degrees of the stretch around an angle lie in the arc. */
  double commonDegrees(double middle, double stretch) {
    double start = DiscAngle.normal(middle - stretch / 2 - fromDegrees);
    double end = start + stretch;
    double ahead = Math.max(0, Math.min(widthDegrees, end) - start);
    double wrapped = Math.min(widthDegrees, Math.max(0, end - DiscAngle.FULL_TURN));
    return ahead + wrapped;
  }
}
