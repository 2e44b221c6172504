package org.isopach.report.picture;

import java.util.Objects;
import java.util.Optional;

/**
 * One sector of the grid as it stands on a sheet.
 *
 * @param name the sector's name in tables
 * @param innerMm inner radius in mm, 0 for a full disc
 * @param outerMm outer radius in mm
 * @param startDegrees where the sector begins, anticlockwise from the right of the picture
 * @param sweepDegrees how far it reaches, anticlockwise; 360 for a disc
 * @param value the number to print, in µm; empty when the sector is refused
 * @param remark what the table column beside the map says: spread, coverage or reason
 */
record SheetSector(
    String name,
    double innerMm,
    double outerMm,
    double startDegrees,
    double sweepDegrees,
    Optional<String> value,
    String remark) {
  SheetSector {
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(value, "value");
    Objects.requireNonNull(remark, "remark");
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

  private double labelRadius() {
    return sweepDegrees >= 360 ? 0 : (innerMm + outerMm) / 2;
  }
}
