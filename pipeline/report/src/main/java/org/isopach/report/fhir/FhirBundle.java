package org.isopach.report.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.DiagnosticReport;
import org.hl7.fhir.r4.model.Reference;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.Software;
import org.isopach.report.file.CompleteFile;

/**
 * A visit as a FHIR R4 transaction: patient, study, eye and program, an Observation for each
 * number, a DiagnosticReport for each scan and panel, a Provenance for each scan. Any server of
 * FHIR takes it as it is; docs/conformance.md says what is in it.
 *
 * <p>Ids are made of the study, the scans and what a number is, so that the same input gives the
 * same bytes. For the same reason {@code Provenance.recorded} has no time: that it is unknown is
 * said by the extension that the standard has for it. A server knows when it was given a resource.
 */
public final class FhirBundle {
  private final FhirEntries entries = new FhirEntries();
  private final FhirStatements statements;
  private final String name;

  private FhirBundle(FhirVisit visit, Software software) {
    this.name = "study/" + visit.studyUid() + "/" + visit.eye().laterality().code() + "/";
    FhirSubjects subjects = new FhirSubjects(visit, entries);
    Reference patient = subjects.patient();
    this.statements =
        new FhirStatements(
            visit,
            patient,
            subjects.study(patient),
            subjects.eye(patient),
            subjects.program(software));
  }

  /** Returns the resources of a visit. */
  public static Bundle of(FhirVisit visit, Software software) {
    FhirBundle made = new FhirBundle(visit, software);
    Map<ScanIdentity, List<FhirNumber>> scans = new LinkedHashMap<>();
    for (FhirNumber number : FhirNumbers.of(visit)) {
      scans.computeIfAbsent(number.scan(), scan -> new ArrayList<>()).add(number);
    }
    scans.forEach(made::add);
    return made.entries.bundle();
  }

  /**
   * Writes the resources of a visit as JSON in UTF-8.
   *
   * @return the SHA-256 digest of the file
   */
  public static String write(Path target, FhirVisit visit, Software software) throws IOException {
    String json =
        FhirContext.forR4Cached()
            .newJsonParser()
            .setPrettyPrint(true)
            .encodeResourceToString(of(visit, software));
    return CompleteFile.write(
        target, out -> out.write((json + "\n").getBytes(StandardCharsets.UTF_8)));
  }

  private void add(ScanIdentity scan, List<FhirNumber> numbers) {
    String prefix = name + scan.sopUid() + "/";
    List<Reference> made = new ArrayList<>();
    Map<FhirPanel, DiagnosticReport> reports = new LinkedHashMap<>();
    for (FhirNumber number : numbers) {
      Reference one = entries.put(prefix + number.key(), statements.observation(number));
      made.add(one);
      reports
          .computeIfAbsent(number.panel(), panel -> statements.report(panel, scan))
          .addResult(one);
    }
    reports.forEach(
        (panel, report) -> made.add(entries.put(prefix + "report/" + panel.code(), report)));
    entries.put(prefix + "provenance", statements.provenance(scan, made));
  }
}
