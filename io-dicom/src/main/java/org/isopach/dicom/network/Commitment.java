package org.isopach.dicom.network;

import java.util.List;

/**
 * What a request for storage commitment names, or what the report on it says (PS3.4, J.3.2 and
 * J.3.3). That these are the attributes is from memory.
 *
 * @param transaction Transaction UID, which ties the report to the request
 * @param referenced what is asked for, or what the provider commits itself to keep
 * @param failed what it does not; empty in a request
 */
record Commitment(String transaction, List<InstanceName> referenced, List<Failed> failed) {
  /** Failure Reasons (PS3.3, C.14.1.1; from memory). */
  static final int PROCESSING_FAILURE = 0x0110;

  static final int NO_SUCH_INSTANCE = 0x0112;
  static final int CLASS_INSTANCE_CONFLICT = 0x0119;

  /** Action and event types. */
  static final int REQUEST = 1;

  static final int ALL_COMMITTED = 1;
  static final int FAILURES_EXIST = 2;

  /** An object that is not committed, and why. */
  record Failed(InstanceName instance, int reason) {}

  Commitment {
    referenced = List.copyOf(referenced);
    failed = List.copyOf(failed);
  }

  int eventType() {
    return failed.isEmpty() ? ALL_COMMITTED : FAILURES_EXIST;
  }

  /** Returns a reason in words. */
  static String words(int reason) {
    String words =
        switch (reason) {
          case PROCESSING_FAILURE -> "processing failure";
          case NO_SUCH_INSTANCE -> "no such object there";
          case CLASS_INSTANCE_CONFLICT -> "another SOP class there";
          case 0x0122 -> "SOP class not supported there";
          case 0x0131 -> "transaction UID used twice";
          case 0x0213 -> "too much for the peer at the moment";
          default -> "no reason we know";
        };
    return String.format("%s (%04X)", words, reason);
  }
}
