package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.scan.StatedRegistration;
import org.isopach.analysis.scan.StatedRegistrations;

/** Objects that say different things about the same two coordinate systems. */
final class RegistrationConflicts {
  private RegistrationConflicts() {}

  /** Returns one finding for each pair of systems that objects disagree on. */
  static List<Finding> among(List<StatedRegistration> stated) {
    Map<Set<FundusFrame>, List<StatedRegistration>> byPair = new LinkedHashMap<>();
    for (StatedRegistration one : stated) {
      byPair.computeIfAbsent(Set.of(one.from(), one.to()), k -> new ArrayList<>()).add(one);
    }
    List<Finding> findings = new ArrayList<>();
    for (List<StatedRegistration> same : byPair.values()) {
      StatedRegistration first = same.get(0);
      if (StatedRegistrations.of(same).contradict(first.from(), first.to())) {
        findings.add(
            new Finding(
                FindingKind.REGISTRATION_CONTRADICTION,
                same.get(same.size() - 1).document().location(),
                same.size()
                    + " objects register "
                    + first.from().uid()
                    + " and "
                    + first.to().uid()
                    + " differently, the first being "
                    + first.document().location()));
      }
    }
    return findings;
  }
}
