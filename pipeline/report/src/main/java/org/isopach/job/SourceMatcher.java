package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.DerivedKind;
import org.isopach.dicom.DerivedObject;

/**
 * Finds the scan that an object was made from. An object that names its source is matched by that
 * name or not at all. One that names none is matched with the only scan of its patient, study and
 * eye; where it states a Frame of Reference, that must be the scan's too.
 */
final class SourceMatcher {
  /** The object names the scan. */
  static final String BY_INSTANCE = "source-instance";

  /** The object names no source; it is of the same patient, study and eye. */
  static final String BY_STUDY_AND_EYE = "study-and-eye";

  /** The same, and in one frame of reference. */
  static final String BY_FRAME = "study-eye-and-frame-of-reference";

  private final List<OctScan> scans;

  /**
   * What was found for an object.
   *
   * @param scans the scans it was made from; none when it has no match
   * @param way how they were found; empty without one
   * @param why why there is none; empty with one
   */
  record Match(List<OctScan> scans, String way, String why) {
    Match {
      scans = List.copyOf(scans);
    }

    static Match none(String why) {
      return new Match(List.of(), "", why);
    }
  }

  SourceMatcher(List<OctScan> scans) {
    this.scans = List.copyOf(scans);
  }

  Match match(DerivedObject object) {
    return object.sources().isEmpty() ? byStudy(object) : byInstance(object);
  }

  private Match byInstance(DerivedObject object) {
    List<OctScan> named =
        scans.stream().filter(scan -> object.sources().contains(scan.identity().sopUid())).toList();
    if (named.isEmpty()) {
      return Match.none(
          "the scan it was made from is not among the inputs: "
              + String.join(", ", object.sources()));
    }
    List<OctScan> sound = new ArrayList<>();
    String why = "";
    for (OctScan scan : named) {
      Optional<String> objection = objection(object, scan);
      if (objection.isEmpty()) {
        sound.add(scan);
      } else {
        why = objection.get();
      }
    }
    return sound.isEmpty() ? Match.none(why) : new Match(sound, BY_INSTANCE, "");
  }

  private static Optional<String> objection(DerivedObject object, OctScan scan) {
    if (!samePatient(object.identity(), scan.identity())) {
      return Optional.of("it names the scan, but is of another patient");
    }
    Optional<Laterality> eye = scan.laterality();
    if (!object.eyes().isEmpty() && eye.isPresent() && !object.eyes().contains(eye.get())) {
      return Optional.of("it names the scan, but is of the other eye");
    }
    return Optional.empty();
  }

  private Match byStudy(DerivedObject object) {
    boolean framed = !object.frameOfReferenceUid().isEmpty();
    boolean mayLackFrame =
        object.kind() == DerivedKind.GRID_REPORT || object.kind() == DerivedKind.THICKNESS_MAP;
    if (!framed && !mayLackFrame) {
      return Match.none("it names no source and no frame of reference");
    }
    List<OctScan> near =
        scans.stream()
            .filter(scan -> samePatient(object.identity(), scan.identity()))
            .filter(scan -> !scan.identity().studyUid().isEmpty())
            .filter(scan -> scan.identity().studyUid().equals(object.identity().studyUid()))
            .filter(scan -> object.eyes().size() == 1)
            .filter(scan -> scan.laterality().filter(object.eyes()::contains).isPresent())
            .filter(scan -> !framed || inFrame(scan, object.frameOfReferenceUid()))
            .toList();
    if (near.size() == 1) {
      return new Match(near, framed ? BY_FRAME : BY_STUDY_AND_EYE, "");
    }
    return Match.none(
        "it names no source, and "
            + near.size()
            + " scans of the inputs are of its patient, study and eye"
            + (framed ? " and in its frame of reference" : ""));
  }

  private static boolean inFrame(OctScan scan, String uid) {
    return scan.path()
        .map(ScanPath::frame)
        .filter(frame -> frame.kind() == FundusFrame.Kind.PATIENT && frame.uid().equals(uid))
        .isPresent();
  }

  /** An issuer that one of the two does not state does not set patients apart. */
  private static boolean samePatient(ScanIdentity a, ScanIdentity b) {
    boolean issuers =
        a.patientIdIssuer().isEmpty()
            || b.patientIdIssuer().isEmpty()
            || a.patientIdIssuer().equals(b.patientIdIssuer());
    return a.patientId().equals(b.patientId()) && issuers;
  }
}
