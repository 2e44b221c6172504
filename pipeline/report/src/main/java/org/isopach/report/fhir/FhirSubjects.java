package org.isopach.report.fhir;

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
import org.isopach.report.Software;

/** Whom and what the numbers of a visit are about, and what made them. */
final class FhirSubjects {
  static final String SNOMED = "http://snomed.info/sct";

  private static final String DICOM_UID = "urn:dicom:uid";
  private static final String UID_URN = "urn:oid:";
  private static final String EYE = "81745001";
  private static final String RIGHT = "24028007";
  private static final String LEFT = "7771000";

  private FhirSubjects() {}

  /** The identifier only: names and dates are the archive's to give. */
  static Patient patient(FhirVisit visit) {
    Patient patient = new Patient();
    Identifier identifier = new Identifier().setValue(visit.eye().patientId());
    if (!visit.eye().issuer().isEmpty()) {
      identifier.setAssigner(new Reference().setDisplay(visit.eye().issuer()));
    }
    if (!visit.eye().patientId().isEmpty()) {
      patient.addIdentifier(identifier);
    }
    return patient;
  }

  static ImagingStudy study(FhirVisit visit, Reference patient) {
    ImagingStudy study = new ImagingStudy();
    study.setStatus(ImagingStudy.ImagingStudyStatus.AVAILABLE);
    study.addIdentifier(new Identifier().setSystem(DICOM_UID).setValue(UID_URN + visit.studyUid()));
    study.setSubject(patient);
    visit.day().ifPresent(day -> study.setStartedElement(new DateTimeType(day.toString())));
    return study;
  }

  static BodyStructure eye(FhirVisit visit, Reference patient) {
    boolean right = visit.eye().laterality() == Laterality.RIGHT;
    BodyStructure eye = new BodyStructure();
    eye.setPatient(patient);
    eye.setLocation(snomed(EYE, "Eye"));
    eye.addLocationQualifier(snomed(right ? RIGHT : LEFT, right ? "Right" : "Left"));
    return eye;
  }

  static Device program(Software software) {
    Device device = new Device();
    device.addDeviceName().setName(software.name()).setType(Device.DeviceNameType.MANUFACTURERNAME);
    device.addVersion().setValue(software.version());
    return device;
  }

  static CodeableConcept snomed(String code, String words) {
    return new CodeableConcept()
        .addCoding(new Coding().setSystem(SNOMED).setCode(code))
        .setText(words);
  }
}
