package org.isopach.analysis.scan;

import java.util.Objects;

/**
 * The fundus image that a scan's frames were placed on.
 *
 * @param sopClassUid its SOP class UID
 * @param sopUid its SOP instance UID
 * @param rows picture rows, 0 when the image itself was not found
 * @param columns picture columns, 0 when the image itself was not found
 * @param rowSpacingMm mm from row to row used to place the frames
 * @param columnSpacingMm mm from column to column used to place the frames
 */
public record ReferenceImage(
    String sopClassUid,
    String sopUid,
    int rows,
    int columns,
    double rowSpacingMm,
    double columnSpacingMm) {
  public ReferenceImage {
    Objects.requireNonNull(sopClassUid, "sopClassUid");
    Objects.requireNonNull(sopUid, "sopUid");
    if (!(rowSpacingMm > 0) || !(columnSpacingMm > 0)) {
      throw new IllegalArgumentException(
          "spacing must be positive, was " + rowSpacingMm + " and " + columnSpacingMm);
    }
  }
}
