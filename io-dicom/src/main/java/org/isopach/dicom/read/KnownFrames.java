package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.space.FundusPlane;

/** The coordinate systems that scans of a folder are placed in, and its fundus images. */
final class KnownFrames {
  private final List<OctScan> scans;
  private final Map<String, Localizer> localizers;

  KnownFrames(List<OctScan> scans, Map<String, Localizer> localizers) {
    this.scans = List.copyOf(scans);
    this.localizers = Map.copyOf(localizers);
  }

  /** Returns how the fundus lies in a patient-relative system, when a scan is placed in it. */
  Optional<FundusPlane> patient(FundusFrame frame) {
    return scansIn(frame).isEmpty() ? Optional.empty() : Optional.of(FundusPlane.ofPatient());
  }

  /**
   * Returns how the fundus lies on an image of the folder; empty for another.
   *
   * @throws Unusable when a scan is placed on the image and its scale is not known from itself
   */
  Optional<FundusPlane> image(FundusFrame frame) throws Unusable {
    Localizer image = localizers.get(frame.uid());
    if (image != null && image.hasScale()) {
      return Optional.of(
          FundusPlane.ofImage(image.rowMm().getAsDouble(), image.columnMm().getAsDouble()));
    }
    if (!scansIn(frame).isEmpty()) {
      throw new Unusable(
          "the fundus image " + frame.uid() + " or its Pixel Spacing (0028,0030) is missing");
    }
    return Optional.empty();
  }

  /** Returns the patient-relative system a tomography is placed in, if it is one of these. */
  Optional<FundusFrame> ofScan(String sopUid) {
    return scans.stream()
        .filter(scan -> scan.identity().sopUid().equals(sopUid))
        .flatMap(scan -> scan.path().stream())
        .map(path -> path.frame())
        .filter(frame -> frame.kind() == FundusFrame.Kind.PATIENT && !frame.uid().isEmpty())
        .findFirst();
  }

  /**
   * Checks that an object may speak of two systems: that it and the scans placed in them are of one
   * patient and one eye.
   *
   * @throws Unusable when they are not, or do not say so
   */
  void requireOneEye(Dataset object, FundusFrame from, FundusFrame to) throws Unusable {
    Set<OctScan> placed = new LinkedHashSet<>(scansIn(from));
    placed.addAll(scansIn(to));
    String patient = object.text(Tags.PATIENT_ID).orElse("");
    Set<String> eyes = new TreeSet<>();
    object.text(Tags.LATERALITY).ifPresent(eyes::add);
    for (OctScan scan : placed) {
      ScanIdentity identity = scan.identity();
      String issuer = object.text(Tags.ISSUER_OF_PATIENT_ID).orElse(identity.patientIdIssuer());
      if (!identity.patientId().equals(patient)
          || !(identity.patientIdIssuer().isEmpty() || identity.patientIdIssuer().equals(issuer))) {
        throw new Unusable(
            "it is of patient \""
                + patient
                + "\" and registers a scan of patient \""
                + identity.patientId()
                + "\"");
      }
      eyes.add(scan.laterality().map(Laterality::code).orElse("unknown"));
    }
    if (eyes.size() > 1) {
      throw new Unusable("it registers more than one eye: " + String.join(", ", eyes));
    }
  }

  private List<OctScan> scansIn(FundusFrame frame) {
    List<OctScan> placed = new ArrayList<>();
    for (OctScan scan : scans) {
      if (scan.path().isPresent() && scan.path().get().frame().equals(frame)) {
        placed.add(scan);
      }
    }
    return placed;
  }
}
