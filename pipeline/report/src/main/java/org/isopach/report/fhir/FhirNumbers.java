package org.isopach.report.fhir;

import java.util.ArrayList;
import java.util.List;
import org.isopach.report.table.NerveTable;

/** Turns the tables of a visit into single numbers with their codes. */
final class FhirNumbers {
  /**
   * System of codes for what LOINC has no code for: a UUID, since it is nobody's web address. A
   * code is what {@code sectors.csv} and {@code nerve.csv} call the number.
   */
  static final String LOCAL = "urn:uuid:6f6b2f0a-5d3e-5c0e-9b7e-2f3c1a7d9e44";

  private FhirNumbers() {}

  static List<FhirNumber> of(FhirVisit visit) {
    List<FhirNumber> numbers = new ArrayList<>();
    visit
        .grids()
        .forEach(table -> numbers.addAll(GridNumbers.of(table, visit.lengths(table.scan()))));
    for (NerveTable table : visit.nerves()) {
      numbers.addAll(
          NerveNumbers.of(table, visit.flags(table.scan()), visit.lengths(table.scan())));
    }
    return numbers;
  }
}
