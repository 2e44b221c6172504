package org.isopach.dicom.network;

import java.nio.ByteBuffer;

/**
 * A protocol data unit (PS3.8, 9.3).
 *
 * @param type one of the constants
 * @param body what follows the length; valid until the next one is read
 */
record Pdu(int type, ByteBuffer body) {
  static final int ASSOCIATE_RQ = 1;
  static final int ASSOCIATE_AC = 2;
  static final int ASSOCIATE_RJ = 3;
  static final int P_DATA = 4;
  static final int RELEASE_RQ = 5;
  static final int RELEASE_RP = 6;
  static final int ABORT = 7;
}
