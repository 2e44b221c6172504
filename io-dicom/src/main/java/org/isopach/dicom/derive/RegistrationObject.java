package org.isopach.dicom.derive;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.Caution;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.space.AffineMatrix;
import org.isopach.dicom.space.FundusPlane;

/**
 * The attributes of a Spatial Registration (DICOM PS3.3, A.39 and C.20.2).
 *
 * <p>The system registered to is that of the baseline: its item has the identity, the follow-up's
 * item the matrix that takes its points there.
 */
final class RegistrationObject {
  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.66.1";

  private static final String MAKER = "Isopach";
  private static final String SERIES_NUMBER = "8102";
  private static final int LONG_STRING = 64;
  private static final int SHORT_TEXT = 1024;
  private static final double RIGID_SCALE = 1e-9;

  /** CID 7100; code and meaning from memory. */
  private static final Code BY_CONTENT = new Code("125024", "DCM", "Image Content-based Alignment");

  private static final Code SOURCE_IMAGE =
      new Code("121322", "DCM", "Source image for image processing operation");

  private RegistrationObject() {}

  /** Adds all attributes but those the source lends; both scans' systems must be nameable. */
  static void addTo(
      Dataset.Builder object, VisitRegistration registration, RegistrationProvenance provenance) {
    RegisteredFrame baseline = RegisteredFrame.of(registration.baseline());
    RegisteredFrame followUp = RegisteredFrame.of(registration.followUp());
    AffineMatrix matrix =
        FundusPlane.inSpace(registration.followUpToBaseline(), followUp.plane(), baseline.plane());
    identity(object, registration, provenance, matrix);
    content(object, registration, provenance);
    object
        .text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, baseline.frameOfReferenceUid())
        .text(Tags.POSITION_REFERENCE_INDICATOR, Vr.LO)
        .items(
            Tags.REGISTRATION_SEQUENCE,
            item(baseline, FundusTransform.IDENTITY, AffineMatrix.IDENTITY),
            item(followUp, registration.followUpToBaseline(), matrix));
    InstanceReference.addAll(
        object,
        registration.followUp().identity().studyUid(),
        List.of(
            InstanceReference.of(registration.baseline()),
            InstanceReference.of(registration.followUp()),
            baseline.image(),
            followUp.image()));
  }

  private static void identity(
      Dataset.Builder object,
      VisitRegistration registration,
      RegistrationProvenance provenance,
      AffineMatrix matrix) {
    OctScan baseline = registration.baseline();
    OctScan followUp = registration.followUp();
    String[] names = {
      baseline.identity().sopUid(),
      baseline.document().sha256(),
      followUp.identity().sopUid(),
      followUp.document().sha256(),
      provenance.softwareVersion(),
      provenance.method(),
      matrix.toString(),
    };
    object
        .text(Tags.SOP_CLASS_UID, Vr.UI, SOP_CLASS_UID)
        .text(Tags.SOP_INSTANCE_UID, Vr.UI, DerivedUids.of("registration", names))
        .text(Tags.STUDY_INSTANCE_UID, Vr.UI, followUp.identity().studyUid())
        .text(Tags.SERIES_INSTANCE_UID, Vr.UI, DerivedUids.of("registration-series", names))
        .text(Tags.SERIES_NUMBER, Vr.IS, SERIES_NUMBER)
        .text(Tags.SERIES_DESCRIPTION, Vr.LO, "Registration of visits")
        .text(Tags.MODALITY, Vr.CS, "REG")
        .text(Tags.LATERALITY, Vr.CS, followUp.laterality().orElseThrow().code())
        .text(Tags.INSTANCE_NUMBER, Vr.IS, "1")
        .text(Tags.MANUFACTURER, Vr.LO, MAKER)
        .text(Tags.MANUFACTURER_MODEL_NAME, Vr.LO, MAKER)
        .text(Tags.DEVICE_SERIAL_NUMBER, Vr.LO, "software")
        .text(Tags.SOFTWARE_VERSIONS, Vr.LO, provenance.softwareVersion());
  }

  private static void content(
      Dataset.Builder object, VisitRegistration registration, RegistrationProvenance provenance) {
    LocalDateTime acquired = registration.followUp().identity().acquired().orElseThrow();
    String description = MAKER + " " + provenance.softwareVersion() + "; " + provenance.method();
    object
        .text(Tags.CONTENT_DATE, Vr.DA, acquired.format(DateTimeFormatter.BASIC_ISO_DATE))
        .text(Tags.CONTENT_TIME, Vr.TM, acquired.format(DateTimeFormatter.ofPattern("HHmmss")))
        .text(Tags.CONTENT_LABEL, Vr.CS, "VISITS")
        .text(Tags.CONTENT_DESCRIPTION, Vr.LO, Caution.SHORT)
        .text(Tags.CONTENT_CREATOR_NAME, Vr.PN)
        .text(Tags.DERIVATION_DESCRIPTION, Vr.ST, ascii(description, SHORT_TEXT))
        .items(
            Tags.SOURCE_IMAGE_SEQUENCE,
            source(registration.baseline()),
            source(registration.followUp()));
  }

  private static Dataset source(OctScan scan) {
    return InstanceReference.of(scan)
        .toItem()
        .items(Tags.PURPOSE_OF_REFERENCE_CODE_SEQUENCE, SOURCE_IMAGE.toItem())
        .build();
  }

  private static Dataset item(
      RegisteredFrame frame, FundusTransform transform, AffineMatrix matrix) {
    boolean identity = transform.equals(FundusTransform.IDENTITY);
    Dataset.Builder registration = Dataset.builder();
    if (identity) {
      registration.items(Tags.REGISTRATION_TYPE_CODE_SEQUENCE);
    } else {
      registration
          .items(Tags.REGISTRATION_TYPE_CODE_SEQUENCE, BY_CONTENT.toItem())
          .text(Tags.FRAME_OF_REFERENCE_TRANSFORMATION_COMMENT, Vr.LO, words(transform));
    }
    boolean rigid = Math.abs(transform.scale() - 1) <= RIGID_SCALE;
    registration.items(
        Tags.MATRIX_SEQUENCE,
        Dataset.builder()
            .text(
                Tags.FRAME_OF_REFERENCE_TRANSFORMATION_MATRIX,
                Vr.DS,
                matrix.values().stream().map(RegistrationObject::text).toArray(String[]::new))
            .text(
                Tags.FRAME_OF_REFERENCE_TRANSFORMATION_MATRIX_TYPE,
                Vr.CS,
                rigid ? "RIGID" : "RIGID_SCALE")
            .build());
    return frame.item().items(Tags.MATRIX_REGISTRATION_SEQUENCE, registration.build()).build();
  }

  /** A zero has no sign in the file. */
  private static String text(double value) {
    return DecimalText.of(value + 0.0);
  }

  private static String words(FundusTransform transform) {
    return ascii(
        String.format(
            Locale.ROOT,
            "scale %.5f, turned %.3f degrees clockwise as seen",
            transform.scale(),
            transform.rotationDegrees()),
        LONG_STRING);
  }

  private static String ascii(String text, int most) {
    String ascii = text.replace("\u00b5", "u").replaceAll("[^\\x20-\\x5b\\x5d-\\x7e]", "?");
    return ascii.length() <= most ? ascii : ascii.substring(0, most - 3) + "...";
  }
}
