package org.isopach.dicom.deidentify;

/** Why an object is not de-identified; the message quotes nothing of it. */
final class Refusal extends Exception {
  private static final long serialVersionUID = 1L;

  Refusal(String reason) {
    super(reason);
  }
}
