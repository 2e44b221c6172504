package org.isopach.dicom.derive;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.DerivedWriteResult.Reason;
import org.isopach.dicom.derive.DerivedWriteResult.Refused;

/** What reports, segmentations and height maps have in common: patient, study, time, series. */
final class DerivedSource {
  private static final int SHORT_TEXT = 1024;

  private DerivedSource() {}

  /** Returns why a header cannot lend what any derived object needs. */
  static Optional<Refused> obstacle(Dataset header, OctScan scan) {
    List<String> lacking = SourceCopy.lackingOfAny(header);
    if (!lacking.isEmpty()) {
      return Optional.of(
          new Refused(
              Reason.SOURCE_INCOMPLETE, "the source object lacks " + String.join(", ", lacking)));
    }
    String acquired = header.text(Tags.ACQUISITION_DATETIME).orElse("");
    if (!AcquiredAt.readable(acquired)) {
      return Optional.of(
          new Refused(
              Reason.SOURCE_INCOMPLETE, "Acquisition DateTime cannot be read: " + acquired));
    }
    String uid = header.text(Tags.SOP_INSTANCE_UID).orElse("");
    if (!uid.equals(scan.identity().sopUid())) {
      return Optional.of(
          new Refused(
              Reason.NOT_OF_THIS_SCAN,
              "the header is of " + uid + ", the scan of " + scan.identity().sopUid()));
    }
    if (scan.laterality().isEmpty()) {
      return Optional.of(new Refused(Reason.SOURCE_INCOMPLETE, "the scan does not say which eye"));
    }
    return Optional.empty();
  }

  /** Adds patient, study, equipment and the time of the content: that of the acquisition. */
  static void addTo(Dataset.Builder object, Dataset header, DerivedProvenance provenance) {
    SourceCopy.addPatientAndStudy(object, header);
    DerivedEquipment.addTo(object, header, provenance.softwareVersion());
    String acquired = header.text(Tags.ACQUISITION_DATETIME).orElseThrow();
    object
        .put(header.element(Tags.STUDY_INSTANCE_UID).orElseThrow())
        .text(Tags.CONTENT_DATE, Vr.DA, AcquiredAt.date(acquired))
        .text(Tags.CONTENT_TIME, Vr.TM, AcquiredAt.time(acquired));
  }

  /** Returns a reference to the source with its study and series. */
  static InstanceReference reference(Dataset header) {
    return new InstanceReference(
        header.text(Tags.STUDY_INSTANCE_UID).orElseThrow(),
        header.text(Tags.SERIES_INSTANCE_UID).orElseThrow(),
        header.text(Tags.SOP_CLASS_UID).orElseThrow(),
        header.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }

  /** Returns text of at most 1024 characters that any character set holds. */
  static String ascii(String text) {
    return ascii(text, SHORT_TEXT);
  }

  /** Returns the program, its version and everything chosen, as a derivation's description. */
  static String algorithm(DerivedProvenance provenance) {
    String parameters = provenance.parameters();
    return ascii(
        DerivedEquipment.MAKER
            + " "
            + provenance.softwareVersion()
            + (parameters.isEmpty() ? "" : "; " + parameters));
  }

  static String ascii(String text, int most) {
    String ascii = text.replace("\u00b5", "u").replaceAll("[^\\x20-\\x5b\\x5d-\\x7e]", "?");
    return ascii.length() <= most ? ascii : ascii.substring(0, most - 3) + "...";
  }
}
