package org.isopach.dicom.derive;

import java.util.Objects;

/**
 * How a derived object was made, beyond what its source tells.
 *
 * @param softwareVersion version of this software, not blank
 * @param parameters everything chosen for the run, in a fixed order of words; may be empty
 */
public record DerivedProvenance(String softwareVersion, String parameters) {
  public DerivedProvenance {
    Objects.requireNonNull(softwareVersion, "softwareVersion");
    Objects.requireNonNull(parameters, "parameters");
    if (softwareVersion.isBlank()) {
      throw new IllegalArgumentException("the software version must not be blank");
    }
  }
}
