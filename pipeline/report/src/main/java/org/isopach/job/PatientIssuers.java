package org.isopach.job;

import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * Who issued which patient identifier. One identifier of two issuers is two patients (DICOM PS3.3,
 * C.7.1.1: Issuer of Patient ID); a scan that does not name the issuer belongs to the only issuer
 * there is, and to none of several.
 */
final class PatientIssuers {
  private final SortedMap<String, Set<String>> byPatient = new TreeMap<>();

  private PatientIssuers() {}

  /** Returns the issuers that scans name. */
  static PatientIssuers of(List<OctScan> scans) {
    PatientIssuers issuers = new PatientIssuers();
    for (OctScan scan : scans) {
      ScanIdentity identity = scan.identity();
      if (!identity.patientIdIssuer().isEmpty()) {
        issuers
            .byPatient
            .computeIfAbsent(identity.patientId(), id -> new TreeSet<>())
            .add(identity.patientIdIssuer());
      }
    }
    issuers.byPatient.values().removeIf(names -> names.size() < 2);
    return issuers;
  }

  /** Returns the eye of a scan; with the issuer only where it is needed. */
  Eye eye(ScanIdentity identity, Laterality side) {
    boolean ambiguous = byPatient.containsKey(identity.patientId());
    return new Eye(identity.patientId(), ambiguous ? identity.patientIdIssuer() : "", side);
  }

  /** Returns one finding for each identifier that several issuers gave. */
  List<Finding> findings() {
    return byPatient.entrySet().stream()
        .map(
            entry ->
                new Finding(
                    FindingKind.PATIENT_ID_AMBIGUOUS,
                    "patient " + entry.getKey(),
                    "the identifier was issued by " + String.join(" and ", entry.getValue())))
        .toList();
  }
}
