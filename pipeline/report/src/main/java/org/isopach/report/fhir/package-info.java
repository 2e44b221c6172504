/** Measured visits as HL7 FHIR R4 resources. */
package org.isopach.report.fhir;
