package org.isopach.dicom.read;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.BirthDate;
import org.isopach.analysis.scan.DeviceModel;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/** What an object says of whom and by what it was made, as far as normal limits depend on it. */
final class ScanSource {
  private ScanSource() {}

  /**
   * Returns the Patient's Birth Date; one that is no date, or later than the acquisition, is left
   * out with a note.
   */
  static Optional<BirthDate> born(
      Dataset attributes, Optional<LocalDateTime> acquired, Remarks remarks) {
    Optional<String> text = attributes.text(Tags.PATIENT_BIRTH_DATE);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    Optional<LocalDate> date = AcquisitionTime.date(text.get());
    if (date.isEmpty()) {
      ignore(text.get(), "which is not a date", remarks);
      return Optional.empty();
    }
    if (acquired.filter(time -> time.toLocalDate().isBefore(date.get())).isPresent()) {
      ignore(text.get(), "which is later than the acquisition", remarks);
      return Optional.empty();
    }
    return date.map(BirthDate::new);
  }

  private static void ignore(String text, String why, Remarks remarks) {
    remarks.add(
        FindingKind.ATTRIBUTE_IGNORED,
        "Patient's Birth Date (0010,0030) is \"" + text + "\", " + why);
  }

  /** Returns Manufacturer's Model Name with Manufacturer; empty when no model is named. */
  static Optional<DeviceModel> device(Dataset attributes) {
    return attributes
        .text(Tags.MANUFACTURER_MODEL_NAME)
        .filter(model -> !model.isBlank())
        .map(model -> new DeviceModel(attributes.text(Tags.MANUFACTURER).orElse(""), model));
  }
}
