package org.isopach.report.fhir;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.DiagnosticReport;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.ImagingStudy;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Quantity;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.dicom.file.FileDigest;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Bundles against HAPI's validator of FHIR R4, and number by number. */
class FhirBundleTest {
  private static final Software SOFTWARE = new Software("Isopach", "0.1.0");

  @TempDir Path folder;

  @Test
  void validatorOfTheStandardFindsNoError() {
    FhirVisit nameless =
        new FhirVisit(
            new Eye("", "", Laterality.RIGHT),
            "2.25.11",
            List.of(),
            List.of(SampleVisits.nerve()),
            Map.of(),
            Map.of());
    assertEquals(List.of(), R4Validator.errors(bundle(SampleVisits.visit())));
    assertEquals(List.of(), R4Validator.errors(bundle(nameless)));
  }

  @Test
  void gridStandsUnderTheCodesOfLoincAndOnlyThere() {
    Observation centre = only("57109-1");
    assertEquals("251.500", centre.getValueQuantity().getValue().toPlainString());
    assertEquals("um", centre.getValueQuantity().getCode());
    assertEquals("2026-01-07", centre.getEffectiveDateTimeType().getValueAsString());
    assertEquals("57108-3", only("57108-3").getCode().getCodingFirstRep().getCode());
    assertEquals("mm3", only("57118-2").getValueQuantity().getCode());
    assertEquals("0.235500", only("57118-2").getValueQuantity().getValue().toPlainString());
    List<Observation> bruch =
        observations(SampleVisits.visit()).stream()
            .filter(one -> one.getCode().getText().startsWith("ILM-BM"))
            .toList();
    assertEquals(12, bruch.size());
    for (Observation one : bruch) {
      assertEquals(1, one.getCode().getCoding().size());
      assertEquals(FhirNumbers.LOCAL, one.getCode().getCodingFirstRep().getSystem());
    }
  }

  @Test
  void smallerGridHasNoCodeOfLoinc() {
    FhirVisit small =
        SampleVisits.visit(
            List.of(SampleVisits.grid(SampleVisits.RETINA, EtdrsGrids.ETDRS_1_2_22_3_45)),
            List.of(),
            Map.of());
    for (Observation one : observations(small)) {
      assertEquals(FhirNumbers.LOCAL, one.getCode().getCodingFirstRep().getSystem());
    }
  }

  @Test
  void gridThatIsNotRoundTheFoveaHasNoCodeOfLoinc() {
    for (Landmark.Source centre :
        List.of(Landmark.Source.SCAN_MIDDLE, Landmark.Source.DISC_OPENING)) {
      FhirVisit elsewhere =
          SampleVisits.visit(
              List.of(SampleVisits.grid(SampleVisits.RETINA, EtdrsGrids.ETDRS_1_3_6, centre)),
              List.of(),
              Map.of());
      for (Observation one : observations(elsewhere)) {
        assertEquals(FhirNumbers.LOCAL, one.getCode().getCodingFirstRep().getSystem());
      }
    }
  }

  /** A length on the fundus that was corrected is no length that the scan states. */
  @Test
  void everyNumberSaysWhatItsLengthsAre() {
    for (Observation one : observations(SampleVisits.visit())) {
      String method = one.getMethod().getText();
      assertTrue(method.contains("corrected for axial length, times 1.0432"), method);
    }
    String method = only("57109-1").getMethod().getText();
    assertTrue(method.contains("from 90 % of the sector covered"), method);
  }

  @Test
  void refusedNumberHasAReasonAndNoValue() {
    Observation refused = only("57110-9");
    assertFalse(refused.hasValue());
    assertTrue(refused.getDataAbsentReason().getText().startsWith("low-coverage"));
    assertEquals("unknown", refused.getDataAbsentReason().getCodingFirstRep().getCode());
    Quantity covered = refused.getComponentFirstRep().getValueQuantity();
    assertEquals("0.6000", covered.getValue().toPlainString());
  }

  @Test
  void fibresOfALeftEyeHaveTheCodesOfALeftEye() {
    assertEquals("91.3", only("86290-4").getValueQuantity().getValue().toPlainString());
    assertEquals("112.0", only("86288-8").getValueQuantity().getValue().toPlainString());
    List<String> codes =
        observations(SampleVisits.visit()).stream().map(FhirBundleTest::code).toList();
    assertFalse(codes.contains("86301-9"), codes.toString());
    assertTrue(codes.contains("circle/rnfl/ILM-RNFL-GCL/clock-hours/hour-6"), codes.toString());
  }

  @Test
  void fibresOfACircleThatIsNoneHaveNoCodeOfLoinc() {
    for (FindingKind flag : List.of(FindingKind.CIRCLE_OFF_DISC, FindingKind.DIAMETER_UNUSUAL)) {
      FhirVisit off =
          SampleVisits.visit(
              List.of(),
              List.of(SampleVisits.nerve()),
              Map.of(SampleVisits.SCAN.sopUid(), List.of(flag)));
      for (Observation one : observations(off)) {
        assertEquals(FhirNumbers.LOCAL, one.getCode().getCodingFirstRep().getSystem());
        assertEquals(2, one.getNote().size(), "cautions and the flag");
      }
    }
  }

  @Test
  void quadrantsTurnedToTheFoveaHaveNoCodeOfLoinc() {
    FhirVisit turned =
        SampleVisits.visit(
            List.of(), List.of(SampleVisits.nerve(AngleZero.foveaDiscLine(7))), Map.of());
    List<String> codes = observations(turned).stream().map(FhirBundleTest::code).toList();
    assertTrue(codes.contains("86290-4"), codes.toString());
    assertFalse(codes.contains("86288-8"), codes.toString());
  }

  @Test
  void eachPanelIsAReportOfItsOwnNumbers() {
    List<DiagnosticReport> reports = resources(SampleVisits.visit(), DiagnosticReport.class);
    assertEquals(
        List.of("57119-0 11", "layer-sectors 13", "86291-2 2", "optic-nerve 1"),
        reports.stream()
            .map(one -> one.getCode().getCodingFirstRep().getCode() + " " + one.getResult().size())
            .toList());
    for (DiagnosticReport one : reports) {
      assertTrue(one.getConclusion().startsWith(Cautions.LINE + "\nfovea-not-found: "));
      assertEquals(DiagnosticReport.DiagnosticReportStatus.PARTIAL, one.getStatus());
    }
    for (Observation one : observations(SampleVisits.visit())) {
      assertEquals(Cautions.LINE, one.getNoteFirstRep().getText());
    }
  }

  @Test
  void provenanceNamesTheScanAndTheProgram() {
    List<Provenance> found = resources(SampleVisits.visit(), Provenance.class);
    assertEquals(1, found.size());
    assertEquals(observations(SampleVisits.visit()).size() + 4, found.get(0).getTarget().size());
    assertEquals(
        "urn:oid:2.25.13", found.get(0).getEntityFirstRep().getWhat().getIdentifier().getValue());
    Device program = resources(SampleVisits.visit(), Device.class).get(0);
    assertEquals("Isopach", program.getDeviceNameFirstRep().getName());
    assertEquals("0.1.0", program.getVersionFirstRep().getValue());
  }

  @Test
  void patientBelongsToItsIssuer() {
    Identifier identifier =
        resources(SampleVisits.visit(), Patient.class).get(0).getIdentifierFirstRep();
    assertEquals("TSEU-1", identifier.getValue());
    assertTrue(identifier.getSystem().startsWith("urn:uuid:"), identifier.getSystem());
    assertEquals("Tern Sound Eye Unit", identifier.getAssigner().getDisplay());
    assertEquals("urn:oid:1.2.3", FhirText.system("1.2.3").orElseThrow());
    assertEquals("urn:oid:1.2.3", FhirText.system("urn:oid:1.2.3").orElseThrow());
    assertEquals(
        "https://ids.example.org/tseu",
        FhirText.system("https://ids.example.org/tseu").orElseThrow());
    assertEquals(Optional.empty(), FhirText.system(""));
  }

  @Test
  void onlyWhatOthersMayHaveIsMadeOnCondition() {
    for (Bundle.BundleEntryComponent entry : bundle(SampleVisits.visit()).getEntry()) {
      boolean shared =
          entry.getResource() instanceof Patient || entry.getResource() instanceof ImagingStudy;
      assertEquals(
          shared ? Bundle.HTTPVerb.POST : Bundle.HTTPVerb.PUT, entry.getRequest().getMethod());
      assertEquals(shared, entry.getRequest().hasIfNoneExist());
    }
    assertEquals(
        "identifier=urn%3Aoid%3A1.2%7CA%5C%2C1%20%26", FhirText.search("urn:oid:1.2", "A,1 &"));
  }

  @Test
  void nobodyIsTakenForAnotherWithoutAnIssuer() {
    FhirVisit one = SampleVisits.of(new Eye("TSEU-1", "", Laterality.LEFT), "2.25.11");
    FhirVisit other = SampleVisits.of(new Eye("TSEU-1", "", Laterality.LEFT), "2.25.12");
    for (FhirVisit visit : List.of(one, other)) {
      Bundle.BundleEntryComponent patient = bundle(visit).getEntry().get(0);
      assertEquals(Bundle.HTTPVerb.PUT, patient.getRequest().getMethod());
    }
    assertNotEquals(
        bundle(one).getEntry().get(0).getFullUrl(), bundle(other).getEntry().get(0).getFullUrl());
  }

  @Test
  void sameVisitGivesTheSameBytes() throws IOException {
    Path first = folder.resolve("a/one.json");
    Path second = folder.resolve("b/two.json");
    String digest = FhirBundle.write(first, SampleVisits.visit(), SOFTWARE);
    FhirBundle.write(second, SampleVisits.visit(), SOFTWARE);
    assertEquals(-1, Files.mismatch(first, second));
    assertEquals(FileDigest.sha256(first), digest);
    assertTrue(Files.readString(first).endsWith("}\n"));
  }

  private static Observation only(String code) {
    List<Observation> found =
        observations(SampleVisits.visit()).stream().filter(one -> code(one).equals(code)).toList();
    assertEquals(1, found.size(), code);
    return found.get(0);
  }

  private static String code(Observation one) {
    return one.getCode().getCodingFirstRep().getCode();
  }

  private static List<Observation> observations(FhirVisit visit) {
    return resources(visit, Observation.class);
  }

  private static <T> List<T> resources(FhirVisit visit, Class<T> type) {
    return bundle(visit).getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(type::isInstance)
        .map(type::cast)
        .toList();
  }

  private static Bundle bundle(FhirVisit visit) {
    return FhirBundle.of(visit, SOFTWARE);
  }
}
