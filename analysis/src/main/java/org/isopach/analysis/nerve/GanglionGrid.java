package org.isopach.analysis.nerve;

import java.util.List;
import java.util.Objects;

/**
 * An elliptical annulus round the fovea, cut into six sectors of 60 degrees.
 *
 * <p>Angles are those of {@link DiscAngle}, seen from the fovea: 0 temporal, 90 superior.
 *
 * @param name the grid's name in tables
 * @param source where the sizes were published
 * @param innerHorizontalMm half the inner ellipse's width
 * @param innerVerticalMm half its height
 * @param outerHorizontalMm half the outer ellipse's width
 * @param outerVerticalMm half its height
 */
public record GanglionGrid(
    String name,
    String source,
    double innerHorizontalMm,
    double innerVerticalMm,
    double outerHorizontalMm,
    double outerVerticalMm) {
  /** The published annulus: 1.2 x 1.0 mm inside, 4.8 x 4.0 mm outside. */
  public static final GanglionGrid STANDARD =
      new GanglionGrid(
          "ellipse-4.8x4.0",
          "Mwanza et al., Invest Ophthalmol Vis Sci 2011;52:8323; sizes from memory",
          0.6,
          0.5,
          2.4,
          2.0);

  /** The sectors' names, from temporal towards superior, 60 degrees each. */
  public static final List<String> SECTORS =
      List.of(
          "superotemporal", "superior", "superonasal", "inferonasal", "inferior", "inferotemporal");

  /** The name of the whole annulus. */
  public static final String ANNULUS = "annulus";

  /** The number of spokes, of 4 degrees each; 15 to a sector. */
  public static final int SPOKES = 90;

  private static final double LARGEST_RADIUS_MM = 5;

  /**
   * @throws IllegalArgumentException when the outer ellipse does not enclose the inner one, or
   *     reaches beyond 5 mm
   */
  public GanglionGrid {
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(source, "source");
    if (!(innerHorizontalMm > 0
        && innerVerticalMm > 0
        && outerHorizontalMm > innerHorizontalMm
        && outerVerticalMm > innerVerticalMm
        && Math.max(outerHorizontalMm, outerVerticalMm) <= LARGEST_RADIUS_MM)) {
      throw new IllegalArgumentException(
          name + ": half widths must grow from above 0 to at most 5 mm");
    }
  }

  /** Returns whether a place, mm towards temporal and superior from the fovea, lies within. */
  boolean contains(double temporalMm, double superiorMm) {
    return norm(temporalMm / outerHorizontalMm, superiorMm / outerVerticalMm) < 1
        && norm(temporalMm / innerHorizontalMm, superiorMm / innerVerticalMm) >= 1;
  }

  private static double norm(double a, double b) {
    return a * a + b * b;
  }

  /**
   * Returns the area in mm², in closed form, from an angle to another one up to a full turn on;
   * both counted from the horizontal.
   */
  public double areaMm2(double fromDegrees, double toDegrees) {
    return swept(outerHorizontalMm, outerVerticalMm, fromDegrees, toDegrees)
        - swept(innerHorizontalMm, innerVerticalMm, fromDegrees, toDegrees);
  }

  /** Half axes product times half the growth of the eccentric angle. */
  private static double swept(double a, double b, double fromDegrees, double toDegrees) {
    return a * b / 2 * (eccentric(a, b, toDegrees) - eccentric(a, b, fromDegrees));
  }

  private static double eccentric(double a, double b, double degrees) {
    double turns = Math.floor(degrees / DiscAngle.FULL_TURN + 0.5);
    double rest = Math.toRadians(degrees - turns * DiscAngle.FULL_TURN);
    return 2 * Math.PI * turns + Math.atan2(a * Math.sin(rest), b * Math.cos(rest));
  }
}
