package org.isopach.analysis.grid;

import java.util.Objects;

/**
 * Part of a ring round a landmark.
 *
 * <p>Angles run from nasal (0 degrees) over superior (90) and temporal (180) to inferior (270), in
 * either eye; a whole ring is 0 to 360.
 *
 * @param name unique within a grid
 * @param innerRadiusMm from the landmark, 0 for a disc. A radius, not a diameter
 * @param outerRadiusMm beyond {@code innerRadiusMm}
 * @param fromDegrees where the sector begins
 * @param toDegrees where it ends: up to 180 further on, or 360
 */
public record Sector(
    String name, double innerRadiusMm, double outerRadiusMm, double fromDegrees, double toDegrees) {
  private static final double FULL_TURN = 360;
  private static final double ROUNDING = 1e-9;

  public Sector {
    Objects.requireNonNull(name, "name");
    if (!(innerRadiusMm >= 0 && outerRadiusMm > innerRadiusMm)
        || Double.isInfinite(outerRadiusMm)) {
      throw new IllegalArgumentException(
          name + ": radii must grow from 0 on, were " + innerRadiusMm + " and " + outerRadiusMm);
    }
    double extent = toDegrees - fromDegrees;
    boolean full = Math.abs(extent - FULL_TURN) < ROUNDING;
    if (!(extent > 0 && extent <= FULL_TURN / 2) && !full) {
      throw new IllegalArgumentException(
          name + ": a sector spans up to 180 degrees or 360, was " + extent);
    }
  }

  /** Returns a whole disc. */
  public static Sector disc(String name, double radiusMm) {
    return new Sector(name, 0, radiusMm, 0, FULL_TURN);
  }

  /** Returns the angle spanned, in degrees. */
  public double extentDegrees() {
    return toDegrees - fromDegrees;
  }

  /** Returns whether the sector is a disc or a whole ring. */
  public boolean isFullTurn() {
    return extentDegrees() > FULL_TURN / 2;
  }

  /** Returns the area in mm², in closed form. */
  public double areaMm2() {
    return Math.PI
        * (outerRadiusMm * outerRadiusMm - innerRadiusMm * innerRadiusMm)
        * (extentDegrees() / FULL_TURN);
  }

  /**
   * Returns whether a place lies in the sector; of its borders, the inner circle and the line where
   * it begins belong to it.
   *
   * @param nasalMm from the landmark towards the nose
   * @param superiorMm from the landmark upwards
   */
  public boolean contains(double nasalMm, double superiorMm) {
    double radius = Math.hypot(nasalMm, superiorMm);
    if (radius < innerRadiusMm || radius >= outerRadiusMm) {
      return false;
    }
    double angle = Math.toDegrees(Math.atan2(superiorMm, nasalMm));
    return isFullTurn() || turn(angle - fromDegrees) < extentDegrees();
  }

  /** Returns whether two sectors have more than a border in common. */
  boolean overlaps(Sector other) {
    boolean radial = innerRadiusMm < other.outerRadiusMm && other.innerRadiusMm < outerRadiusMm;
    double ahead = turn(other.fromDegrees - fromDegrees);
    double behind = turn(fromDegrees - other.fromDegrees);
    return radial && (ahead < extentDegrees() || behind < other.extentDegrees());
  }

  private static double turn(double degrees) {
    double rest = degrees % FULL_TURN;
    return rest < 0 ? rest + FULL_TURN : rest;
  }
}
