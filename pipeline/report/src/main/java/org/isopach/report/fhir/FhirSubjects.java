package org.isopach.report.fhir;

import java.util.Optional;
import org.hl7.fhir.r4.model.Annotation;
import org.hl7.fhir.r4.model.BodyStructure;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.ImagingStudy;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Reference;
import org.isopach.analysis.eye.Laterality;
import org.isopach.report.Cautions;
import org.isopach.report.Software;

/** Whom and what the numbers of a visit are about, and what made them; adds them to a bundle. */
final class FhirSubjects {
  static final String SNOMED = "http://snomed.info/sct";

  private static final String EYE = "81745001";
  private static final String RIGHT = "24028007";
  private static final String LEFT = "7771000";

  private final FhirVisit visit;
  private final FhirEntries entries;

  FhirSubjects(FhirVisit visit, FhirEntries entries) {
    this.visit = visit;
    this.entries = entries;
  }

  /**
   * Adds the patient: the identifier only, names and dates are the archive's to give. One whose
   * issuer is known is made only where the server has none with that identifier. Without an issuer,
   * or an identifier, each study has a patient of its own, so that two of one number are never
   * taken for one.
   */
  Reference patient() {
    Patient patient = new Patient();
    Optional<String> system = FhirText.system(visit.eye().issuer());
    String id = visit.eye().patientId();
    if (id.isEmpty()) {
      return entries.put(patientName(), patient);
    }
    Identifier identifier = patient.addIdentifier().setValue(id);
    if (system.isEmpty()) {
      return entries.put(patientName(), patient);
    }
    identifier.setSystem(system.get());
    identifier.setAssigner(new Reference().setDisplay(visit.eye().issuer()));
    return entries.createUnlessThere(patientName(), patient, identifier);
  }

  private String patientName() {
    String id = visit.eye().patientId();
    return FhirText.system(visit.eye().issuer())
        .filter(system -> !id.isEmpty())
        .map(system -> "patient/" + system + "|" + id)
        .orElse("study/" + visit.studyUid() + "/patient");
  }

  /** Adds the study; made only where the server has none: it is the archive's. */
  Reference study(Reference patient) {
    ImagingStudy study = new ImagingStudy();
    study.setStatus(ImagingStudy.ImagingStudyStatus.AVAILABLE);
    Identifier uid =
        new Identifier().setSystem(FhirText.DICOM_UID).setValue(FhirText.ofUid(visit.studyUid()));
    study.addIdentifier(uid);
    study.setSubject(patient);
    visit.day().ifPresent(day -> study.setStartedElement(new DateTimeType(day.toString())));
    return entries.createUnlessThere("study/" + visit.studyUid(), study, uid);
  }

  /** Adds the eye. */
  Reference eye(Reference patient) {
    boolean right = visit.eye().laterality() == Laterality.RIGHT;
    BodyStructure eye = new BodyStructure();
    eye.setPatient(patient);
    eye.setLocation(snomed(EYE, "Eye"));
    eye.addLocationQualifier(snomed(right ? RIGHT : LEFT, right ? "Right" : "Left"));
    return entries.put(patientName() + "/eye/" + visit.eye().laterality().code(), eye);
  }

  /** Adds the program. */
  Reference program(Software software) {
    Device device = new Device();
    device.addDeviceName().setName(software.name()).setType(Device.DeviceNameType.MANUFACTURERNAME);
    device.addVersion().setValue(software.version());
    device.addNote(new Annotation().setText(Cautions.LINE));
    return entries.put("program/" + software.name() + "/" + software.version(), device);
  }

  static CodeableConcept snomed(String code, String words) {
    return new CodeableConcept()
        .addCoding(new Coding().setSystem(SNOMED).setCode(code))
        .setText(words);
  }
}
