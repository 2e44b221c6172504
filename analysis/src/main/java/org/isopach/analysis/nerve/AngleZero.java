package org.isopach.analysis.nerve;

import java.util.Objects;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * What angles round the disc, and round the fovea, are counted from.
 *
 * @param kind the direction that is 0 degrees
 * @param foveaDiscDegrees the angle of docs/measurements.md "Fovea-disc angle", positive where the
 *     disc lies higher than the fovea; 0 for {@link Kind#HORIZONTAL}
 */
public record AngleZero(Kind kind, double foveaDiscDegrees) {
  /** Zero at the picture's horizontal, the usual one. */
  public static final AngleZero HORIZONTAL = new AngleZero(Kind.HORIZONTAL, 0);

  private static final double STEEPEST_DEGREES = 45;

  /** The directions that can be 0 degrees. */
  public enum Kind {
    /** Temporal along the picture's horizontal. */
    HORIZONTAL("horizontal"),
    /** From the disc's centre to the fovea. */
    FOVEA_DISC_LINE("fovea-disc-line");

    private final String code;

    Kind(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }

  /**
   * @throws IllegalArgumentException when a horizontal zero has an angle, or the angle is not
   *     finite or beyond 45 degrees, which no eye has
   */
  public AngleZero {
    Objects.requireNonNull(kind, "kind");
    if (!(Math.abs(foveaDiscDegrees) <= STEEPEST_DEGREES)) {
      throw new IllegalArgumentException(
          "a fovea-disc angle must be within 45 degrees, was " + foveaDiscDegrees);
    }
    if (kind == Kind.HORIZONTAL && foveaDiscDegrees != 0) {
      throw new IllegalArgumentException(
          "a horizontal zero has no fovea-disc angle, was " + foveaDiscDegrees);
    }
  }

  /** Returns the zero at the line from the disc's centre to the fovea. */
  public static AngleZero foveaDiscLine(double foveaDiscDegrees) {
    return new AngleZero(Kind.FOVEA_DISC_LINE, foveaDiscDegrees);
  }

  /**
   * Returns the zero at the line from a disc's centre to a fovea.
   *
   * @param fovea in the same coordinates as the disc, mm
   * @throws IllegalArgumentException when the line is steeper than 45 degrees
   */
  public static AngleZero foveaDiscLine(FundusPoint fovea, FundusPoint disc, Laterality eye) {
    return foveaDiscLine(-DiscAngle.signed(DiscAngle.ofDegrees(fovea, disc, eye)));
  }

  /** Returns the angle counted from this zero of one counted from the horizontal. */
  public double ofHorizontal(double degrees) {
    return DiscAngle.normal(degrees + foveaDiscDegrees);
  }

  /** Returns the angle counted from the horizontal of one counted from this zero. */
  public double toHorizontal(double degrees) {
    return DiscAngle.normal(degrees - foveaDiscDegrees);
  }
}
