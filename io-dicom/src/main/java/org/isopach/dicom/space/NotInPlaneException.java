package org.isopach.dicom.space;

/** A map of space that is no similarity of the fundus; the message says why. */
public final class NotInPlaneException extends Exception {
  private static final long serialVersionUID = 1L;

  /** Makes an exception from the reason in plain words. */
  public NotInPlaneException(String reason) {
    super(reason);
  }
}
