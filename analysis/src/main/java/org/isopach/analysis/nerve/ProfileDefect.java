package org.isopach.analysis.nerve;

import java.util.Locale;

/**
 * A contiguous part of the circle that is thinner, beyond noise, than the rest of the profile.
 * Angles are degrees in the profile's own count, from 0 to below 360; the part runs from {@code
 * fromDegrees} with growing angle and may pass 0. Depths are beyond the profile's general change,
 * its median.
 *
 * @param fromDegrees where it begins
 * @param widthDegrees how wide it is at half of its greatest depth, at most 360
 * @param meanDepthUm mean loss over its samples in µm, positive
 * @param maxDepthUm greatest loss of the running mean in µm, positive
 * @param areaUmDegrees loss summed over its samples, µm × degrees
 * @param p chance that a profile without any loss has a place as deep, the whole circle searched
 */
public record ProfileDefect(
    double fromDegrees,
    double widthDegrees,
    double meanDepthUm,
    double maxDepthUm,
    double areaUmDegrees,
    double p) {
  private static final double TURN = 360;

  public ProfileDefect {
    if (!(fromDegrees >= 0 && fromDegrees < TURN) || !(widthDegrees > 0 && widthDegrees <= TURN)) {
      throw new IllegalArgumentException(
          "a part of a circle, was from " + fromDegrees + ", width " + widthDegrees);
    }
  }

  /** Returns where it ends, from 0 to below 360. */
  public double toDegrees() {
    return (fromDegrees + widthDegrees) % TURN;
  }

  /** Returns its middle, from 0 to below 360. */
  public double centreDegrees() {
    return (fromDegrees + widthDegrees / 2) % TURN;
  }

  /** Returns the area under it along a circle of such a radius, µm × mm. */
  public double areaUmMm(double radiusMm) {
    return areaUmDegrees * Math.toRadians(1) * radiusMm;
  }

  /** Returns one sentence without a full stop. */
  public String words() {
    return String.format(
        Locale.ROOT,
        "locally thinner beyond noise around %.0f degrees, %.0f degrees wide, mean %.1f µm, deepest"
            + " %.1f µm; to be confirmed at another visit, a circle laid anew can look so too",
        Math.floor(centreDegrees() + 0.5) % TURN,
        widthDegrees,
        meanDepthUm,
        maxDepthUm);
  }
}
