package org.isopach.report.fhir;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.DiagnosticReport;
import org.hl7.fhir.r4.model.Observation;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Bundles against HAPI's validator of FHIR R4, and number by number. */
class FhirBundleTest {
  private static final Layer RETINA = new Layer(Boundary.ILM, Boundary.RPE);
  private static final Layer TO_BRUCH = new Layer(Boundary.ILM, Boundary.BM);
  private static final Software SOFTWARE = new Software("Isopach", "0.1.0");
  private static final ScanIdentity SCAN =
      new ScanIdentity("TSEU-1", "2.25.11", "2.25.12", "2.25.13", Optional.empty());

  @TempDir Path folder;

  @Test
  void validatorOfTheStandardFindsNoError() {
    FhirContext context = FhirContext.forR4Cached();
    ValidationSupportChain support =
        new ValidationSupportChain(
            new DefaultProfileValidationSupport(context),
            new CommonCodeSystemsTerminologyService(context),
            new InMemoryTerminologyServerValidationSupport(context));
    FhirValidator validator = context.newValidator();
    validator.registerValidatorModule(new FhirInstanceValidator(support));
    List<String> errors =
        validator.validateWithResult(bundle()).getMessages().stream()
            .filter(one -> one.getSeverity().compareTo(ResultSeverityEnum.ERROR) >= 0)
            .map(FhirBundleTest::words)
            .toList();
    assertEquals(List.of(), errors);
  }

  @Test
  void gridStandsUnderTheCodesOfLoincAndOnlyThere() {
    Observation centre = only("57109-1");
    assertEquals("251.500", centre.getValueQuantity().getValue().toPlainString());
    assertEquals("um", centre.getValueQuantity().getCode());
    assertEquals("57108-3", only("57108-3").getCode().getCodingFirstRep().getCode());
    assertEquals("mm3", only("57118-2").getValueQuantity().getCode());
    List<Observation> bruch =
        observations().stream()
            .filter(one -> one.getCode().getText().startsWith("ILM-BM"))
            .toList();
    assertEquals(11, bruch.size());
    for (Observation one : bruch) {
      assertEquals(FhirNumbers.LOCAL, one.getCode().getCodingFirstRep().getSystem());
    }
  }

  @Test
  void refusedNumberHasAReasonAndNoValue() {
    Observation refused = only("57110-9");
    assertFalse(refused.hasValue());
    assertTrue(refused.getDataAbsentReason().getText().startsWith("low-coverage"));
  }

  @Test
  void fibresOfALeftEyeHaveTheCodesOfALeftEye() {
    assertEquals("91.300", only("86290-4").getValueQuantity().getValue().toPlainString());
    assertEquals("112.000", only("86288-8").getValueQuantity().getValue().toPlainString());
    assertTrue(observations().stream().noneMatch(one -> codes(one).contains("86301-9")));
    assertTrue(
        observations().stream()
            .anyMatch(one -> codes(one).contains("rnfl/ILM-RNFL-GCL/clock-hours")));
  }

  @Test
  void eachPanelIsAReportOfItsOwnNumbers() {
    List<DiagnosticReport> reports = resources(DiagnosticReport.class);
    assertEquals(2, reports.size());
    assertEquals("57119-0", reports.get(0).getCode().getCodingFirstRep().getCode());
    assertEquals(11, reports.get(0).getResult().size());
    assertEquals("86291-2", reports.get(1).getCode().getCodingFirstRep().getCode());
    assertEquals(2, reports.get(1).getResult().size());
    assertEquals(Cautions.LINE, reports.get(0).getConclusion());
    for (Observation one : observations()) {
      assertEquals(Cautions.LINE, one.getNoteFirstRep().getText());
    }
  }

  @Test
  void sameVisitGivesTheSameBytes() throws IOException {
    Path first = folder.resolve("a/one.json");
    Path second = folder.resolve("b/two.json");
    FhirBundle.write(first, visit(), SOFTWARE);
    FhirBundle.write(second, visit(), SOFTWARE);
    assertEquals(-1, Files.mismatch(first, second));
    assertTrue(Files.readString(first).endsWith("}\n"));
  }

  private static String words(SingleValidationMessage message) {
    return message.getLocationString() + ": " + message.getMessage();
  }

  private static Observation only(String code) {
    List<Observation> found =
        observations().stream()
            .filter(one -> one.getCode().getCodingFirstRep().getCode().equals(code))
            .toList();
    assertEquals(1, found.size(), code);
    return found.get(0);
  }

  private static String codes(Observation one) {
    return one.getCode().getCodingFirstRep().getCode();
  }

  private static List<Observation> observations() {
    return resources(Observation.class);
  }

  private static <T> List<T> resources(Class<T> type) {
    return bundle().getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(type::isInstance)
        .map(type::cast)
        .toList();
  }

  private static Bundle bundle() {
    return FhirBundle.of(visit(), SOFTWARE);
  }

  private static FhirVisit visit() {
    return new FhirVisit(
        new Eye("TSEU-1", "Tern Sound Eye Unit", Laterality.LEFT),
        "2.25.11",
        Optional.of(LocalDate.of(2026, 1, 7)),
        List.of(grid(RETINA), grid(TO_BRUCH)),
        List.of(nerve()));
  }

  private static SectorTable grid(Layer layer) {
    SectorGrid grid = EtdrsGrids.ETDRS_1_3_6;
    List<SectorResult> results = new ArrayList<>();
    grid.sectors()
        .forEach(
            sector ->
                results.add(
                    sector.name().equals("inner-superior")
                        ? new NotMeasurable(
                            sector.name(),
                            NotMeasurable.Reason.LOW_COVERAGE,
                            1.57,
                            0.6,
                            "60.0 % of the sector has a thickness")
                        : measured(sector.name(), 251.5)));
    results.add(measured(SectorGrid.TOTAL, 300));
    return new SectorTable(
        layer,
        grid,
        Laterality.LEFT,
        new Landmark(new FundusPoint(0, 0), Landmark.Source.FOVEAL_PIT),
        SCAN,
        0.9,
        results,
        measured("centre-point", 220.25));
  }

  private static Measured measured(String sector, double um) {
    return new Measured(sector, um, 12, um - 30, um + 30, 0.785, 1);
  }

  private static NerveTable nerve() {
    return new NerveTable(
        SCAN,
        Laterality.LEFT,
        "circle",
        OptionalDouble.of(3.46),
        AngleZero.HORIZONTAL,
        Optional.of(new FundusPoint(0, 0)),
        "circle",
        OptionalDouble.of(64),
        List.of(
            fibres("", "global", 91.3),
            fibres("quadrants", "inferior", 112),
            fibres("clock-hours", "hour-6", 140)));
  }

  private static NerveValue fibres(String scheme, String sector, double um) {
    return new NerveValue(
        NerveMeasure.FIBRES,
        "ILM-RNFL-GCL",
        scheme,
        sector,
        OptionalDouble.of(um),
        Optional.empty(),
        OptionalDouble.of(1),
        "",
        Optional.empty());
  }
}
