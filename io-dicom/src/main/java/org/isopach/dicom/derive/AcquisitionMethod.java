package org.isopach.dicom.derive;

import org.isopach.dicom.data.Code;

/** How the tomography was acquired: CID 4261, as far as it concerns tomography. */
public enum AcquisitionMethod {
  TIME_DOMAIN("111920", "Time domain"),
  /** Fourier-domain tomography; the context group has no code of its own for swept sources. */
  SPECTRAL_DOMAIN("111921", "Spectral domain");

  private final String value;
  private final String meaning;

  AcquisitionMethod(String value, String meaning) {
    this.value = value;
    this.meaning = meaning;
  }

  /** Returns the code. */
  public Code code() {
    return new Code(value, "DCM", meaning);
  }
}
