package org.isopach.report.fhir;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Annotation;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DiagnosticReport;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.Cautions;

/** Makes what is said of an eye at a visit: numbers, reports, where they come from. */
final class FhirStatements {
  private static final String UCUM = "http://unitsofmeasure.org";
  private static final String TERMINOLOGY = "http://terminology.hl7.org/CodeSystem/";
  private static final String STRUCTURE = "http://hl7.org/fhir/StructureDefinition/";
  private static final String OPHTHALMOLOGY = "394594003";
  private static final String COVERED = "covered-fraction";
  private static final int COVERED_DECIMALS = 4;

  private final FhirVisit visit;
  private final Reference patient;
  private final Reference study;
  private final Reference eye;
  private final Reference program;

  FhirStatements(
      FhirVisit visit, Reference patient, Reference study, Reference eye, Reference program) {
    this.visit = visit;
    this.patient = patient;
    this.study = study;
    this.eye = eye;
    this.program = program;
  }

  Observation observation(FhirNumber number) {
    Observation observation = new Observation();
    observation.setStatus(Observation.ObservationStatus.FINAL);
    observation.addCategory(concept(TERMINOLOGY + "observation-category", "exam"));
    observation.setCode(code(number));
    observation.setSubject(patient);
    day(number.scan()).forEach(observation::setEffective);
    if (number.value().isPresent()) {
      observation.setValue(
          quantity(number.value().getAsDouble(), number.decimals(), number.unit()));
    } else {
      observation.setDataAbsentReason(
          concept(TERMINOLOGY + "data-absent-reason", "unknown").setText(number.reason()));
    }
    observation.setBodySite(
        new CodeableConcept().setText(visit.eye().laterality().word() + " eye"));
    observation.getBodySite().addExtension(new Extension(STRUCTURE + "bodySite", eye));
    observation.setMethod(new CodeableConcept().setText(number.method()));
    observation.setDevice(program);
    observation.addDerivedFrom(study);
    cautions(number.scan()).forEach(words -> observation.addNote(new Annotation().setText(words)));
    if (number.covered().isPresent()) {
      observation
          .addComponent()
          .setCode(concept(FhirNumbers.LOCAL, COVERED))
          .setValue(quantity(number.covered().getAsDouble(), COVERED_DECIMALS, "1"));
    }
    return observation;
  }

  /**
   * One coding only where LOINC has the code: the guide's value set of the macula allows no other
   * beside it.
   */
  private static CodeableConcept code(FhirNumber number) {
    CodeableConcept code =
        number
            .loinc()
            .map(one -> concept(LoincCodes.SYSTEM, one))
            .orElseGet(() -> concept(FhirNumbers.LOCAL, number.key().replace(' ', '-')));
    return code.setText(number.words());
  }

  /** Makes a report without results. No person verified it, so it is not final. */
  DiagnosticReport report(FhirPanel panel, ScanIdentity scan) {
    DiagnosticReport report = new DiagnosticReport();
    report.setStatus(DiagnosticReport.DiagnosticReportStatus.PARTIAL);
    report.addCategory(FhirSubjects.snomed(OPHTHALMOLOGY, "Ophthalmology"));
    report.setCode(concept(panel.system(), panel.code()).setText(panel.words()));
    report.setSubject(patient);
    day(scan).forEach(report::setEffective);
    report.addImagingStudy(study);
    report.setConclusion(String.join("\n", cautions(scan)));
    return report;
  }

  /** Says which program made what of which object. */
  Provenance provenance(ScanIdentity scan, List<Reference> made) {
    Provenance provenance = new Provenance();
    made.forEach(provenance::addTarget);
    InstantType recorded = new InstantType();
    recorded.addExtension(new Extension(STRUCTURE + "data-absent-reason", new CodeType("unknown")));
    provenance.setRecordedElement(recorded);
    provenance
        .addAgent()
        .setWho(program)
        .setType(concept(TERMINOLOGY + "provenance-participant-type", "assembler"));
    provenance.addEntity().setRole(Provenance.ProvenanceEntityRole.SOURCE).setWhat(instance(scan));
    return provenance;
  }

  private static Reference instance(ScanIdentity scan) {
    Reference instance = new Reference().setDisplay("DICOM instance");
    return FhirText.isUid(scan.sopUid())
        ? instance.setIdentifier(
            new Identifier().setSystem(FhirText.DICOM_UID).setValue(FhirText.ofUid(scan.sopUid())))
        : instance;
  }

  /** The cautions, then what was said of the scan. */
  private List<String> cautions(ScanIdentity scan) {
    return Stream.concat(
            Stream.of(Cautions.LINE), visit.flags(scan).stream().map(FhirStatements::words))
        .toList();
  }

  private static String words(FindingKind flag) {
    return flag.name().toLowerCase(Locale.ROOT).replace('_', '-') + ": " + flag.advice();
  }

  private static Stream<DateTimeType> day(ScanIdentity scan) {
    return FhirVisit.day(scan).map(day -> new DateTimeType(day.toString())).stream();
  }

  private static Quantity quantity(double value, int decimals, String code) {
    return new Quantity()
        .setValue(new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN))
        .setSystem(UCUM)
        .setCode(code)
        .setUnit(code);
  }

  private static CodeableConcept concept(String system, String code) {
    return new CodeableConcept().addCoding(new Coding().setSystem(system).setCode(code));
  }
}
