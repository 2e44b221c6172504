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
  private static final int LASTING = -2;

  private final int reason;
  private final int rejectedBy;

  private AssociationException(String message, int reason, int rejectedBy) {
    super(message);
    this.reason = reason;
    this.rejectedBy = rejectedBy;
  }

  /** Returns what breaks a rule; the association is to be aborted with the reason. */
  static AssociationException broken(int reason, String message) {
    return new AssociationException(message, reason, 0);
  }

  /** Returns what the peer ended; nothing is left to abort. */
  static AssociationException peer(String message) {
    return new AssociationException(message, PEER_ENDED, 0);
  }

  /** Returns what will be the same however often it is tried again. */
  static AssociationException lasting(String message) {
    return new AssociationException(message, LASTING, 0);
  }

  /** Returns a request that is sound but not served; it is to be rejected for good. */
  static AssociationException unserved(int source, int reason, String message) {
    return new AssociationException(message, reason, source);
  }

  /** Returns whether the peer still waits for an abort. */
  boolean toBeAborted() {
    return reason >= 0 && rejectedBy == 0;
  }

  /** Returns whether trying again is of no use. */
  boolean isLasting() {
    return reason == LASTING;
  }

  /** Returns who rejects the request (PS3.8, table 9-21), or 0 when it is not to be rejected. */
  int rejectedBy() {
    return rejectedBy;
  }

  /** Returns the reason to abort or reject with. */
  int reason() {
    return reason;
  }
}
