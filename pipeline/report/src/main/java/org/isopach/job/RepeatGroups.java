package org.isopach.job;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;

/**
 * Scans grouped into repeats of each other.
 *
 * @param groups groups of one scan or more, by patient, eye and time
 * @param loose scans that cannot be anyone's repeat, in the order given
 * @param findings why not, and which scans stand alone
 */
record RepeatGroups(List<Group> groups, List<OctScan> loose, List<Finding> findings) {
  /** Scans of one eye, day and pattern, the earliest first. */
  record Group(Eye eye, List<OctScan> scans) {
    OctScan first() {
      return scans.get(0);
    }
  }

  private static final Comparator<OctScan> BY_EYE_AND_TIME =
      Comparator.comparing((OctScan scan) -> scan.identity().patientId())
          .thenComparing(scan -> scan.laterality().orElseThrow())
          .thenComparing(scan -> time(scan))
          .thenComparing(scan -> scan.identity().sopUid());

  /** Groups scans; those of a group lie at most so many days after its first. */
  static RepeatGroups of(List<OctScan> scans, int withinDays) {
    PatientIssuers issuers = PatientIssuers.of(scans);
    List<Finding> findings = new ArrayList<>(issuers.findings());
    List<OctScan> loose = new ArrayList<>();
    List<OctScan> usable = new ArrayList<>();
    for (OctScan scan : scans) {
      obstacle(scan).ifPresent(findings::add);
      (usable(scan) ? usable : loose).add(scan);
    }
    usable.sort(BY_EYE_AND_TIME);
    List<Group> groups = new ArrayList<>();
    for (OctScan scan : usable) {
      Eye eye = issuers.eye(scan.identity(), scan.laterality().orElseThrow());
      groups.stream()
          .filter(group -> group.eye().equals(eye) && takes(group, scan, withinDays))
          .findFirst()
          .orElseGet(() -> started(groups, eye))
          .scans()
          .add(scan);
    }
    for (Group group : groups) {
      if (group.scans().size() == 1) {
        findings.add(alone(group.first(), withinDays));
      }
    }
    return new RepeatGroups(groups, loose, findings);
  }

  private static Group started(List<Group> groups, Eye eye) {
    Group group = new Group(eye, new ArrayList<>());
    groups.add(group);
    return group;
  }

  private static boolean takes(Group group, OctScan scan, int withinDays) {
    LocalDate from = time(group.first()).toLocalDate();
    return ChronoUnit.DAYS.between(from, time(scan).toLocalDate()) <= withinDays
        && ScanLikeness.alike(group.first(), scan);
  }

  private static boolean usable(OctScan scan) {
    return scan.laterality().isPresent() && scan.path().isPresent() && obstacle(scan).isEmpty();
  }

  /** Missing sides and places are told by whoever measures the scan. */
  private static Optional<Finding> obstacle(OctScan scan) {
    String location = scan.document().location();
    if (scan.identity().patientId().isEmpty()) {
      return Optional.of(
          new Finding(
              FindingKind.NO_PATIENT, location, "no repeat of anything without a Patient ID"));
    }
    if (scan.identity().acquired().isEmpty()) {
      return Optional.of(
          new Finding(
              FindingKind.REPEAT_UNDATED,
              location,
              "the scan does not say when it was made and is left out of the repeats"));
    }
    return Optional.empty();
  }

  private static Finding alone(OctScan scan, int withinDays) {
    return new Finding(
        FindingKind.NO_REPEAT,
        scan.document().location(),
        "no other scan of this eye and pattern "
            + (withinDays == 0 ? "of this day" : "within " + withinDays + " days"));
  }

  private static LocalDateTime time(OctScan scan) {
    return scan.identity().acquired().orElseThrow();
  }
}
