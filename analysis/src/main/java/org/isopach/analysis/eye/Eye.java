package org.isopach.analysis.eye;

import java.util.Objects;

/**
 * One eye of one patient: what visits are compared within.
 *
 * @param patientId the patient's identifier as the archive gives it; may be empty, never null
 * @param issuer who gave the identifier, where that is needed to tell two patients apart, else
 *     empty
 * @param laterality which eye
 */
public record Eye(String patientId, String issuer, Laterality laterality) {
  public Eye {
    Objects.requireNonNull(patientId, "patientId");
    Objects.requireNonNull(issuer, "issuer");
    Objects.requireNonNull(laterality, "laterality");
  }
}
