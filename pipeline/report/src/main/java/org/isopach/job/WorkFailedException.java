package org.isopach.job;

/** A piece of work ended in a checked exception; the cause says which. */
final class WorkFailedException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  WorkFailedException(Throwable cause) {
    super(cause.getMessage(), cause);
  }
}
