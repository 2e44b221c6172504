package org.isopach.report.fhir;

import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * One number on its way into an Observation.
 *
 * @param scan the scan it was measured in
 * @param key what makes it differ from the scan's other numbers; its code in the local system
 * @param loinc its LOINC code; empty where LOINC has none of this definition
 * @param words what it is
 * @param value the number; empty when it was refused
 * @param unit UCUM code
 * @param decimals those of the table it stands in
 * @param covered share of the sector or arc that has values, 0 to 1
 * @param reason why there is no number; empty text when there is one
 * @param method how it was measured
 * @param panel the report it belongs to
 */
record FhirNumber(
    ScanIdentity scan,
    String key,
    Optional<String> loinc,
    String words,
    OptionalDouble value,
    String unit,
    int decimals,
    OptionalDouble covered,
    String reason,
    String method,
    FhirPanel panel) {}
