package org.isopach.dicom.derive;

import java.util.Objects;

/**
 * How a registration was found.
 *
 * @param softwareVersion version of this software, not blank
 * @param method by what, in plain words, with everything chosen for it; not blank
 */
public record RegistrationProvenance(String softwareVersion, String method) {
  public RegistrationProvenance {
    Objects.requireNonNull(softwareVersion, "softwareVersion");
    Objects.requireNonNull(method, "method");
    if (softwareVersion.isBlank() || method.isBlank()) {
      throw new IllegalArgumentException("software version and method must not be blank");
    }
  }
}
