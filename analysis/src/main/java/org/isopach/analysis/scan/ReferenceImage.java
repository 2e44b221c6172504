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
 * @param studyUid its study instance UID, empty when not known
 * @param seriesUid its series instance UID, empty when not known
 * @param scaleStated whether the image itself states its spacing; else it was reckoned
 */
public record ReferenceImage(
    String sopClassUid,
    String sopUid,
    int rows,
    int columns,
    double rowSpacingMm,
    double columnSpacingMm,
    String studyUid,
    String seriesUid,
    boolean scaleStated) {
  public ReferenceImage {
    Objects.requireNonNull(sopClassUid, "sopClassUid");
    Objects.requireNonNull(sopUid, "sopUid");
    Objects.requireNonNull(studyUid, "studyUid");
    Objects.requireNonNull(seriesUid, "seriesUid");
    if (!(rowSpacingMm > 0) || !(columnSpacingMm > 0)) {
      throw new IllegalArgumentException(
          "spacing must be positive, was " + rowSpacingMm + " and " + columnSpacingMm);
    }
  }

  /** Makes an image of unknown study and series that states its spacing. */
  public ReferenceImage(
      String sopClassUid,
      String sopUid,
      int rows,
      int columns,
      double rowSpacingMm,
      double columnSpacingMm) {
    this(sopClassUid, sopUid, rows, columns, rowSpacingMm, columnSpacingMm, "", "", true);
  }
}
