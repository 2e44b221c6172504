package org.isopach.report.fhir;

import java.util.Optional;
import java.util.OptionalDouble;
import org.hl7.fhir.r4.model.CodeableConcept;

/**
 * One number on its way into an Observation.
 *
 * @param key what makes it differ from the visit's other numbers
 * @param code what it is
 * @param value the number; empty when it was refused
 * @param unit UCUM code
 * @param covered share of the sector or arc that has values, 0 to 1
 * @param reason why there is no number; empty text when there is one
 * @param method how it was measured
 * @param sopUid the scan
 * @param panel LOINC code of the report it belongs to; empty for none
 */
record FhirNumber(
    String key,
    CodeableConcept code,
    OptionalDouble value,
    String unit,
    OptionalDouble covered,
    String reason,
    String method,
    String sopUid,
    Optional<String> panel) {}
