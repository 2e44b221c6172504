package org.isopach.dicom.read;

/** Why one of several ways to read something does not work; the message says it in plain words. */
final class Unusable extends Exception {
  private static final long serialVersionUID = 1L;

  Unusable(String reason) {
    super(reason);
  }
}
