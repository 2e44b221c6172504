package org.isopach.dicom.read;

import java.util.List;
import java.util.OptionalDouble;
import org.isopach.analysis.scan.ReferenceImage;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * A fundus image found in the folder, as far as frames are placed on it.
 *
 * @param sopClassUid its SOP class
 * @param sopUid its SOP instance
 * @param studyUid its study, empty when not stated
 * @param seriesUid its series, empty when not stated
 * @param rows picture rows, 0 when not stated
 * @param columns picture columns, 0 when not stated
 * @param rowMm mm from row to row; empty when not stated or not usable
 * @param columnMm mm from column to column; empty when not stated or not usable
 */
record Localizer(
    String sopClassUid,
    String sopUid,
    String studyUid,
    String seriesUid,
    int rows,
    int columns,
    OptionalDouble rowMm,
    OptionalDouble columnMm) {
  /** Reads what is needed of an Ophthalmic Photography image. */
  static Localizer of(Dataset image) {
    List<Double> spacing = NumberField.of(image, Tags.PIXEL_SPACING).values();
    boolean usable =
        spacing.size() == 2 && spacing.stream().allMatch(v -> v > 0 && !v.isInfinite());
    return new Localizer(
        image.text(Tags.SOP_CLASS_UID).orElse(""),
        image.text(Tags.SOP_INSTANCE_UID).orElse(""),
        image.text(Tags.STUDY_INSTANCE_UID).orElse(""),
        image.text(Tags.SERIES_INSTANCE_UID).orElse(""),
        extent(image, Tags.ROWS),
        extent(image, Tags.COLUMNS),
        usable ? OptionalDouble.of(spacing.get(0)) : OptionalDouble.empty(),
        usable ? OptionalDouble.of(spacing.get(1)) : OptionalDouble.empty());
  }

  /** Returns whether positions on the image can be told in mm. */
  boolean hasScale() {
    return rowMm.isPresent();
  }

  /** Returns the image as frames are placed on it; it must have a scale. */
  ReferenceImage reference() {
    return new ReferenceImage(
        sopClassUid,
        sopUid,
        rows,
        columns,
        rowMm.getAsDouble(),
        columnMm.getAsDouble(),
        studyUid,
        seriesUid,
        true);
  }

  private static int extent(Dataset image, int tag) {
    return NumberField.of(image, tag).values().stream().findFirst().orElse(0.0).intValue();
  }
}
