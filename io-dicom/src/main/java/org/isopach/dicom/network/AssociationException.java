package org.isopach.dicom.network;

import java.io.IOException;

/**
 * An association cannot go on: a rule of PS3.8 or a limit of ours was broken, or the peer ended.
 */
public final class AssociationException extends IOException {
  private static final long serialVersionUID = 1L;

  /** Abort reasons of PS3.8, 9.3.8. */
  static final int UNSPECIFIED = 0;

  static final int UNRECOGNISED_PDU = 1;
  static final int UNEXPECTED_PDU = 2;
  static final int INVALID_PARAMETER = 6;
  private static final int PEER_ENDED = -1;

  private final int reason;

  private AssociationException(String message, int reason) {
    super(message);
    this.reason = reason;
  }

  /** Returns what breaks a rule; the association is to be aborted with the reason. */
  static AssociationException broken(int reason, String message) {
    return new AssociationException(message, reason);
  }

  /** Returns what the peer ended; nothing is left to abort. */
  static AssociationException peer(String message) {
    return new AssociationException(message, PEER_ENDED);
  }

  /** Returns whether the peer still waits for an abort. */
  boolean toBeAborted() {
    return reason != PEER_ENDED;
  }

  /** Returns the reason to abort with. */
  int reason() {
    return reason;
  }
}
