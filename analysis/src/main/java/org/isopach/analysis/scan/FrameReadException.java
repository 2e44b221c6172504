package org.isopach.analysis.scan;

/** A frame that was promised could not be read; the message names the object and the reason. */
public final class FrameReadException extends Exception {
  private static final long serialVersionUID = 1L;

  /** Makes an exception from the object's name, the frame and what went wrong. */
  public FrameReadException(String message, Throwable cause) {
    super(message, cause);
  }
}
