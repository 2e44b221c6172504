package org.isopach.report.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hl7.fhir.r4.model.Annotation;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DiagnosticReport;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.isopach.report.Cautions;
import org.isopach.report.Software;

/**
 * A visit as a FHIR R4 collection: patient, study, eye and program once, an Observation for each
 * number, a DiagnosticReport for each panel that LOINC has, and their Provenance.
 *
 * <p>Identifiers are made of the study, the scans and what a number is, so that the same input
 * gives the same bytes. For the same reason {@code Provenance.recorded} has no time: that it is
 * unknown is said by the extension that the standard has for it; the run's record holds the time.
 */
public final class FhirBundle {
  private static final String UCUM = "http://unitsofmeasure.org";
  private static final String TERMINOLOGY = "http://terminology.hl7.org/CodeSystem/";
  private static final String STRUCTURE = "http://hl7.org/fhir/StructureDefinition/";
  private static final String OPHTHALMOLOGY = "394594003";
  private static final String COVERED = "covered-fraction";
  private static final int DECIMALS = 3;

  private final FhirVisit visit;
  private final Bundle bundle = new Bundle();
  private final Reference patient;
  private final Reference study;
  private final Reference eye;
  private final Reference program;

  private FhirBundle(FhirVisit visit, Software software) {
    this.visit = visit;
    bundle.setType(Bundle.BundleType.COLLECTION);
    this.patient = add("patient", FhirSubjects.patient(visit));
    this.study = add("study", FhirSubjects.study(visit, patient));
    this.eye = add("eye", FhirSubjects.eye(visit, patient));
    this.program = add("program", FhirSubjects.program(software));
  }

  /** Returns the resources of a visit. */
  public static Bundle of(FhirVisit visit, Software software) {
    FhirBundle made = new FhirBundle(visit, software);
    made.addNumbers(FhirNumbers.of(visit));
    return made.bundle;
  }

  /** Writes the resources of a visit as JSON in UTF-8. */
  public static void write(Path target, FhirVisit visit, Software software) throws IOException {
    Files.createDirectories(target.toAbsolutePath().getParent());
    String json =
        FhirContext.forR4Cached()
            .newJsonParser()
            .setPrettyPrint(true)
            .encodeResourceToString(of(visit, software));
    Files.writeString(target, json + "\n", StandardCharsets.UTF_8);
  }

  private void addNumbers(List<FhirNumber> numbers) {
    Map<String, DiagnosticReport> reports = new LinkedHashMap<>();
    for (FhirNumber number : numbers) {
      Reference one = add(number.key(), observation(number));
      number
          .panel()
          .ifPresent(
              code ->
                  reports
                      .computeIfAbsent(code + " of " + number.sopUid(), key -> report(code))
                      .addResult(one));
    }
    Provenance provenance = provenance();
    reports.forEach((key, report) -> provenance.addTarget(add(key, report)));
    if (reports.isEmpty()) {
      provenance.addTarget(study);
    }
    add("provenance", provenance);
  }

  private Observation observation(FhirNumber number) {
    Observation observation = new Observation();
    observation.setStatus(Observation.ObservationStatus.FINAL);
    observation.addCategory(concept(TERMINOLOGY + "observation-category", "exam"));
    observation.setCode(number.code());
    observation.setSubject(patient);
    visit.day().ifPresent(day -> observation.setEffective(new DateTimeType(day.toString())));
    if (number.value().isPresent()) {
      observation.setValue(quantity(number.value().getAsDouble(), number.unit()));
    } else {
      observation.setDataAbsentReason(
          concept(TERMINOLOGY + "data-absent-reason", "not-performed").setText(number.reason()));
    }
    observation.setBodySite(
        new CodeableConcept().setText(visit.eye().laterality().word() + " eye"));
    observation.getBodySite().addExtension(new Extension(STRUCTURE + "bodySite", eye));
    observation.setMethod(new CodeableConcept().setText(number.method()));
    observation.setDevice(program);
    observation.addDerivedFrom(study);
    observation.addNote(new Annotation().setText(Cautions.LINE));
    number
        .covered()
        .ifPresent(
            share ->
                observation
                    .addComponent()
                    .setCode(concept(FhirNumbers.LOCAL, COVERED))
                    .setValue(quantity(share, "1")));
    return observation;
  }

  private DiagnosticReport report(String panel) {
    DiagnosticReport report = new DiagnosticReport();
    report.setStatus(DiagnosticReport.DiagnosticReportStatus.FINAL);
    report.addCategory(FhirSubjects.snomed(OPHTHALMOLOGY, "Ophthalmology"));
    report.setCode(concept(LoincCodes.SYSTEM, panel));
    report.setSubject(patient);
    visit.day().ifPresent(day -> report.setEffective(new DateTimeType(day.toString())));
    report.addImagingStudy(study);
    report.setConclusion(Cautions.LINE);
    return report;
  }

  private Provenance provenance() {
    Provenance provenance = new Provenance();
    InstantType recorded = new InstantType();
    recorded.addExtension(new Extension(STRUCTURE + "data-absent-reason", new CodeType("unknown")));
    provenance.setRecordedElement(recorded);
    provenance
        .addAgent()
        .setWho(program)
        .setType(concept(TERMINOLOGY + "provenance-participant-type", "assembler"));
    provenance.addEntity().setRole(Provenance.ProvenanceEntityRole.SOURCE).setWhat(study);
    return provenance;
  }

  private static Quantity quantity(double value, String code) {
    return new Quantity()
        .setValue(BigDecimal.valueOf(value).setScale(DECIMALS, RoundingMode.HALF_EVEN))
        .setSystem(UCUM)
        .setCode(code)
        .setUnit(code);
  }

  private static CodeableConcept concept(String system, String code) {
    return new CodeableConcept().addCoding(new Coding().setSystem(system).setCode(code));
  }

  private Reference add(String key, Resource resource) {
    String name = visit.studyUid() + "/" + visit.eye().laterality().code() + "/" + key;
    String id = UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)).toString();
    bundle.addEntry().setFullUrl("urn:uuid:" + id).setResource(resource);
    return new Reference("urn:uuid:" + id);
  }
}
