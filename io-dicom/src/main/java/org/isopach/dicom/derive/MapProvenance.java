package org.isopach.dicom.derive;

import java.util.Objects;

/**
 * How a map was made, beyond what its source tells.
 *
 * @param softwareVersion version of this software, not blank
 * @param parameters everything chosen for the run, in a fixed order of words; may be empty
 * @param method how the tomography was acquired; a tomography object does not say
 * @param lateralScale what lengths on the fundus were multiplied with against those of the source
 *     object, 1 when nothing was changed
 */
public record MapProvenance(
    String softwareVersion, String parameters, AcquisitionMethod method, double lateralScale) {
  public MapProvenance {
    Objects.requireNonNull(parameters, "parameters");
    Objects.requireNonNull(method, "method");
    if (softwareVersion.isBlank()) {
      throw new IllegalArgumentException("the software version must not be blank");
    }
    if (!(lateralScale > 0) || Double.isInfinite(lateralScale)) {
      throw new IllegalArgumentException(
          "lateralScale must be finite and positive, was " + lateralScale);
    }
  }

  /** Returns the provenance of a map in the lengths of its Fourier-domain source. */
  public static MapProvenance of(String softwareVersion, String parameters) {
    return new MapProvenance(softwareVersion, parameters, AcquisitionMethod.SPECTRAL_DOMAIN, 1);
  }
}
