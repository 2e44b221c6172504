package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.RegistrationWriteResult.Reason;
import org.isopach.dicom.derive.RegistrationWriteResult.Refused;
import org.isopach.dicom.derive.RegistrationWriteResult.Written;
import org.isopach.dicom.space.FundusPlane;

/** Writes registrations as Spatial Registration objects, into the follow-up's study. */
public final class RegistrationObjectWriter implements SpatialRegistrationWriter {
  private final SourceHeaders headers;
  private final DicomObjectWriter writer;

  /**
   * @param headers gives the follow-up object's attributes
   * @param writer puts the object into a file
   */
  public RegistrationObjectWriter(SourceHeaders headers, DicomObjectWriter writer) {
    this.headers = Objects.requireNonNull(headers, "headers");
    this.writer = Objects.requireNonNull(writer, "writer");
  }

  @Override
  public RegistrationWriteResult write(
      VisitRegistration registration, RegistrationProvenance provenance, Path target)
      throws IOException {
    Optional<Refused> obstacle = obstacle(registration);
    if (obstacle.isPresent()) {
      return obstacle.get();
    }
    Dataset header = headers.header(registration.followUp());
    String uid = header.text(Tags.SOP_INSTANCE_UID).orElse("");
    if (!uid.equals(registration.followUp().identity().sopUid())) {
      return new Refused(Reason.SOURCE_INCOMPLETE, "the follow-up's header is of " + uid);
    }
    Dataset.Builder object = Dataset.builder();
    SourceCopy.addPatientAndStudy(object, header);
    RegistrationObject.addTo(object, registration, provenance);
    Dataset dataset = object.build();
    writer.write(target, dataset, new byte[0]);
    return new Written(target, dataset.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }

  private static Optional<Refused> obstacle(VisitRegistration registration) {
    OctScan baseline = registration.baseline();
    OctScan followUp = registration.followUp();
    if (!oneEye(baseline, followUp)) {
      return refused(Reason.NOT_ONE_EYE, "the scans are not of one eye of one named patient");
    }
    for (OctScan scan : new OctScan[] {baseline, followUp}) {
      if (scan.identity().studyUid().isEmpty() || scan.identity().seriesUid().isEmpty()) {
        return refused(
            Reason.SOURCE_INCOMPLETE, scan.document().location() + " names no study or series");
      }
      Optional<Refused> unnamed = RegisteredFrame.obstacle(scan);
      if (unnamed.isPresent()) {
        return unnamed;
      }
    }
    if (baseline.path().orElseThrow().frame().equals(followUp.path().orElseThrow().frame())) {
      return refused(
          Reason.SAME_FRAME,
          "both scans count in one coordinate system, and the standard maps between two");
    }
    if (followUp.identity().acquired().isEmpty()) {
      return refused(Reason.SOURCE_INCOMPLETE, "the follow-up does not say when it was made");
    }
    double scale = registration.followUpToBaseline().scale();
    if (scale < FundusPlane.LEAST_SCALE || scale > FundusPlane.GREATEST_SCALE) {
      return refused(Reason.OUT_OF_RANGE, "a scale of " + scale + " is not believed");
    }
    return Optional.empty();
  }

  private static boolean oneEye(OctScan baseline, OctScan followUp) {
    ScanIdentity a = baseline.identity();
    ScanIdentity b = followUp.identity();
    return !a.patientId().isEmpty()
        && a.patientId().equals(b.patientId())
        && (a.patientIdIssuer().isEmpty()
            || b.patientIdIssuer().isEmpty()
            || a.patientIdIssuer().equals(b.patientIdIssuer()))
        && baseline.laterality().isPresent()
        && baseline.laterality().equals(followUp.laterality());
  }

  private static Optional<Refused> refused(Reason reason, String detail) {
    return Optional.of(new Refused(reason, detail));
  }
}
