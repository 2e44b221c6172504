package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ReferenceImage;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.RegistrationWriteResult.Reason;
import org.isopach.dicom.derive.RegistrationWriteResult.Refused;
import org.isopach.dicom.space.FundusPlane;

/**
 * The coordinate system of one scan, as a registration names it: by Frame of Reference UID, or by
 * the fundus image the scan is placed on.
 *
 * @param frame the system
 * @param image the object that stands for it: the fundus image, or the scan itself
 * @param plane how the fundus lies in it
 */
record RegisteredFrame(FundusFrame frame, InstanceReference image, FundusPlane plane) {
  /** Returns why a scan's system cannot be named, or empty when it can. */
  static Optional<Refused> obstacle(OctScan scan) {
    Optional<FundusFrame> frame = scan.path().map(ScanPath::frame);
    String location = scan.document().location();
    if (frame.isEmpty() || frame.get().uid().isEmpty()) {
      return Optional.of(
          new Refused(
              Reason.FRAME_WITHOUT_NAME,
              location + " is placed in no coordinate system that has a name"));
    }
    if (frame.get().kind() == FundusFrame.Kind.PATIENT) {
      return Optional.empty();
    }
    boolean known =
        scan.reference()
            .filter(image -> image.sopUid().equals(frame.get().uid()))
            .filter(ReferenceImage::scaleStated)
            .filter(image -> !image.studyUid().isEmpty() && !image.seriesUid().isEmpty())
            .isPresent();
    return known
        ? Optional.empty()
        : Optional.of(
            new Refused(
                Reason.IMAGE_UNKNOWN,
                "the fundus image of " + location + ", its scale or its series is not known"));
  }

  /** Returns the system of a scan that has no {@link #obstacle}. */
  static RegisteredFrame of(OctScan scan) {
    FundusFrame frame = scan.path().orElseThrow().frame();
    if (frame.kind() == FundusFrame.Kind.PATIENT) {
      return new RegisteredFrame(frame, InstanceReference.of(scan), FundusPlane.ofPatient());
    }
    ReferenceImage image = scan.reference().orElseThrow();
    return new RegisteredFrame(
        frame,
        InstanceReference.of(image),
        FundusPlane.ofImage(image.rowSpacingMm(), image.columnSpacingMm()));
  }

  /**
   * Returns the UID of this system as the one that others are registered to. An image has none of
   * its own: the name made for it stands for its image-relative coordinates.
   */
  String frameOfReferenceUid() {
    return frame.kind() == FundusFrame.Kind.PATIENT
        ? frame.uid()
        : DerivedUids.of("frame-of-fundus-image", frame.uid());
  }

  /** Returns the start of an item of the Registration Sequence: what it registers. */
  Dataset.Builder item() {
    Dataset.Builder item =
        Dataset.builder().items(Tags.REFERENCED_IMAGE_SEQUENCE, image.toItem().build());
    if (frame.kind() == FundusFrame.Kind.PATIENT) {
      item.text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, frame.uid());
    }
    return item;
  }
}
