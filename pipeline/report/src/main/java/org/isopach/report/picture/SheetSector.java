package org.isopach.report.picture;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.Sector;

/**
 * One sector of the grid as it stands on a sheet.
 *
 * @param name the sector's name in tables
 * @param innerMm inner radius in mm, 0 for a full disc
 * @param outerMm outer radius in mm
 * @param startDegrees where the sector begins, anticlockwise from the right of the picture
 * @param sweepDegrees how far it reaches, anticlockwise; 360 for a disc
 * @param value the number to print, in µm; empty when the sector is refused
 */
record SheetSector(
    String name,
    double innerMm,
    double outerMm,
    double startDegrees,
    double sweepDegrees,
    Optional<String> value) {
  SheetSector {
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(value, "value");
  }

  /** Returns a sector of a grid as it lies on the picture of an eye. */
  static SheetSector of(Sector sector, Laterality laterality, Optional<String> value) {
    double start = laterality.nasalSign() > 0 ? sector.fromDegrees() : 180 - sector.toDegrees();
    return new SheetSector(
        sector.name(),
        sector.innerRadiusMm(),
        sector.outerRadiusMm(),
        start,
        sector.extentDegrees(),
        value);
  }

  boolean refused() {
    return value.isEmpty();
  }

  /** Returns x of the place for the number, mm to the right of the grid's centre. */
  double labelXMm() {
    return labelRadius() * Math.cos(Math.toRadians(startDegrees + sweepDegrees / 2));
  }

  /** Returns y of the place for the number, mm down from the grid's centre. */
  double labelYMm() {
    return -labelRadius() * Math.sin(Math.toRadians(startDegrees + sweepDegrees / 2));
  }

  /** Returns whether a place, mm right and down from the centre, lies in the sector. */
  boolean contains(double xMm, double yMm) {
    double radius = Math.hypot(xMm, yMm);
    if (radius < innerMm || radius > outerMm) {
      return false;
    }
    double turn = (Math.toDegrees(Math.atan2(-yMm, xMm)) - startDegrees) % 360;
    return (turn < 0 ? turn + 360 : turn) <= sweepDegrees;
  }

  private double labelRadius() {
    return sweepDegrees >= 360 ? 0 : (innerMm + outerMm) / 2;
  }
}
