package org.isopach.analysis.map;

import java.util.Objects;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * The optic disc, or the part of it that lies in the scan: the area in which the outer retina ends.
 *
 * @param centre centre of that area, in the coordinates of the scan's path (mm)
 * @param areaMm2 its size
 * @param complete whether it lies in the scan with all of its rim; else centre and area are those
 *     of a part
 */
public record OpticDisc(FundusPoint centre, double areaMm2, boolean complete) {
  public OpticDisc {
    Objects.requireNonNull(centre, "centre");
    if (!(areaMm2 > 0) || Double.isInfinite(areaMm2)) {
      throw new IllegalArgumentException("areaMm2 must be finite and positive, was " + areaMm2);
    }
  }

  /** Returns the diameter in mm of the circle of the same area. */
  public double diameterMm() {
    return 2 * Math.sqrt(areaMm2 / Math.PI);
  }

  /**
   * Returns the angle in degrees between the horizontal and the line from the fovea to the disc's
   * centre, positive where the disc lies higher; empty unless the disc is complete. It holds the
   * eye's torsion and the tilt of the head.
   */
  public OptionalDouble angleDegrees(FundusPoint fovea, Laterality laterality) {
    if (!complete) {
      return OptionalDouble.empty();
    }
    double nasal = laterality.nasalSign() * (centre.xMm() - fovea.xMm());
    double superior = fovea.yMm() - centre.yMm();
    return OptionalDouble.of(Math.toDegrees(Math.atan2(superior, nasal)));
  }
}
