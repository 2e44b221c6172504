package org.isopach.report.fhir;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** Turns the tables of a visit into single numbers with their codes. */
final class FhirNumbers {
  /**
   * System of codes for what LOINC has no code for: a UUID, since it is nobody's web address. A
   * code is what {@code sectors.csv} and {@code nerve.csv} call the number.
   */
  static final String LOCAL = "urn:uuid:6f6b2f0a-5d3e-5c0e-9b7e-2f3c1a7d9e44";

  private static final String MICROMETRE = "um";
  private static final String CUBIC_MILLIMETRE = "mm3";
  private static final String CENTRE_POINT = "centre-point";
  private static final String QUADRANTS = "quadrants";

  private FhirNumbers() {}

  static List<FhirNumber> of(FhirVisit visit) {
    List<FhirNumber> numbers = new ArrayList<>();
    visit.grids().forEach(table -> addGrid(table, numbers));
    for (NerveTable table : visit.nerves()) {
      for (NerveValue value : table.values()) {
        numbers.add(nerve(table, value));
      }
    }
    return numbers;
  }

  private static void addGrid(SectorTable table, List<FhirNumber> numbers) {
    numbers.add(grid(table, CENTRE_POINT, table.centrePoint(), false));
    for (SectorResult result : table.sectors()) {
      boolean total = result.sector().equals(SectorGrid.TOTAL);
      numbers.add(grid(table, result.sector(), result, total));
    }
  }

  private static FhirNumber grid(
      SectorTable table, String sector, SectorResult result, boolean volume) {
    boolean point = sector.equals(CENTRE_POINT);
    Optional<String> loinc =
        point
            ? Optional.of(LoincCodes.CENTRE_POINT)
                .filter(code -> table.layer().equals(LoincCodes.GRID_LAYER))
            : LoincCodes.grid(table.layer(), table.grid(), sector);
    String name = table.layer().name() + " " + sector + (volume ? " volume" : " thickness");
    String local = table.layer().name() + "/" + table.grid().name() + "/" + sector;
    OptionalDouble value = OptionalDouble.empty();
    String reason = "";
    if (result instanceof Measured measured) {
      value = OptionalDouble.of(volume ? measured.volumeMm3() : measured.meanUm());
    } else if (result instanceof NotMeasurable refused) {
      reason = refused.reason().code() + ": " + refused.detail();
    }
    String method =
        (point ? "mean of the disc of 0.05 mm radius round the centre, " : "area-weighted mean, ")
            + table.layer().name()
            + " along the A-scan, grid "
            + table.grid().name()
            + " round "
            + table.centre().source().code();
    return new FhirNumber(
        table.scan().sopUid() + "/" + local,
        code(loinc, local, name),
        value,
        volume ? CUBIC_MILLIMETRE : MICROMETRE,
        OptionalDouble.of(result.coveredFraction()),
        reason,
        method,
        table.scan().sopUid(),
        loinc.map(code -> LoincCodes.MACULA_PANEL));
  }

  private static FhirNumber nerve(NerveTable table, NerveValue value) {
    boolean quadrant = value.scheme().isEmpty() || value.scheme().equals(QUADRANTS);
    Optional<String> loinc =
        value.measure() == NerveMeasure.FIBRES && quadrant
            ? LoincCodes.fibres(table.laterality(), value.sector())
            : Optional.empty();
    String local =
        String.join("/", value.measure().code(), value.layer(), value.scheme(), value.sector());
    String method =
        value.measure().code()
            + " of a "
            + table.role()
            + (table.diameterMm().isPresent()
                ? ", circle of " + table.diameterMm().getAsDouble() + " mm"
                : "")
            + ", angles from "
            + table.zero().kind().code();
    return new FhirNumber(
        table.scan().sopUid() + "/" + table.role() + "/" + local,
        code(loinc, local, local),
        value.value(),
        value.measure().unit(),
        value.coveredFraction(),
        value.reason(),
        method,
        table.scan().sopUid(),
        loinc.map(code -> LoincCodes.FIBRES_PANEL));
  }

  /**
   * One coding only where LOINC has the code: the guide's value set of the macula allows no other
   * beside it.
   */
  private static CodeableConcept code(Optional<String> loinc, String local, String name) {
    Coding coding =
        loinc
            .map(code -> new Coding().setSystem(LoincCodes.SYSTEM).setCode(code))
            .orElseGet(() -> new Coding().setSystem(LOCAL).setCode(local.replace(' ', '-')));
    return new CodeableConcept().addCoding(coding).setText(name);
  }
}
