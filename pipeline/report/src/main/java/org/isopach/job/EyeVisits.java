package org.isopach.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.scan.OctScan;

/**
 * The visits of one eye, the earliest first.
 *
 * @param eye which eye; empty for scans whose laterality is not known
 * @param visits at least one
 */
record EyeVisits(Optional<Eye> eye, List<Visit> visits) {
  EyeVisits {
    Objects.requireNonNull(eye, "eye");
    visits = visits.stream().sorted(Visit.BY_TIME).toList();
  }

  /** Groups scans by eye, in the order in which the eyes first appear. */
  static List<EyeVisits> of(List<OctScan> scans) {
    PatientIssuers issuers = PatientIssuers.of(scans);
    Map<Optional<Eye>, Map<String, List<OctScan>>> groups = new LinkedHashMap<>();
    for (OctScan scan : scans) {
      Optional<Eye> eye = scan.laterality().map(side -> issuers.eye(scan.identity(), side));
      groups
          .computeIfAbsent(eye, key -> new LinkedHashMap<>())
          .computeIfAbsent(scan.identity().studyUid(), key -> new ArrayList<>())
          .add(scan);
    }
    return groups.entrySet().stream()
        .map(entry -> new EyeVisits(entry.getKey(), visits(entry.getValue())))
        .toList();
  }

  private static List<Visit> visits(Map<String, List<OctScan>> studies) {
    return studies.entrySet().stream()
        .map(study -> new Visit(study.getKey(), study.getValue()))
        .toList();
  }

  /** Returns the visit that others are compared with, or empty when the eye has no such visit. */
  Optional<Visit> baseline(BaselineChoice choice) {
    return choice.studyUid().isEmpty()
        ? Optional.of(visits.get(0))
        : visits.stream()
            .filter(visit -> visit.studyUid().equals(choice.studyUid().get()))
            .findFirst();
  }

  /** Returns whether it is known which visit came first: every visit has its own time. */
  boolean firstIsKnown() {
    return visits.size() < 2
        || (visits.stream().allMatch(Visit::hasTime)
            && visits.get(0).time().isBefore(visits.get(1).time()));
  }

  /** Returns all scans: those of the first visit given first, then the rest by time. */
  List<OctScan> scansFrom(Optional<Visit> first) {
    List<OctScan> scans = new ArrayList<>();
    first.ifPresent(visit -> scans.addAll(visit.scans()));
    for (Visit visit : visits) {
      if (!first.equals(Optional.of(visit))) {
        scans.addAll(visit.scans());
      }
    }
    return scans;
  }

  /** Returns the eye in words. */
  String words() {
    return eye.map(
            one ->
                "patient "
                    + one.patientId()
                    + (one.issuer().isEmpty() ? "" : " (issued by " + one.issuer() + ")")
                    + ", "
                    + one.laterality().word()
                    + " eye")
        .orElse("scans of unknown laterality");
  }
}
