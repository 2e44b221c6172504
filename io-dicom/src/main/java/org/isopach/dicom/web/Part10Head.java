package org.isopach.dicom.web;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.network.Uids;

/**
 * What the file meta information of an object says (PS3.10, 7.1).
 *
 * @param sopClass Media Storage SOP Class UID, sound and of a storage class
 * @param sopInstance Media Storage SOP Instance UID, sound
 * @param transferSyntax one of those read
 */
record Part10Head(String sopClass, String sopInstance, String transferSyntax) {
  private static final int PREAMBLE = 128;
  private static final int START = PREAMBLE + 4 + 12;
  private static final int LONGEST = 64 * 1024;
  private static final int GROUP_LENGTH = 0x00020000;
  private static final int SOP_CLASS = 0x00020002;
  private static final int SOP_INSTANCE = 0x00020003;
  private static final int TRANSFER_SYNTAX = 0x00020010;

  /** A head, or why it cannot be used. */
  record Read(Optional<Part10Head> head, String why) {
    private static Read not(String why) {
      return new Read(Optional.empty(), why);
    }
  }

  /** Reads up to the data set, if the head is sound. */
  static Read of(InputStream in) throws IOException {
    ByteBuffer start = ByteBuffer.wrap(in.readNBytes(START)).order(ByteOrder.LITTLE_ENDIAN);
    if (start.limit() < START || start.getInt(PREAMBLE) != 0x4d434944) {
      return Read.not("what came is not a DICOM file");
    }
    start.position(PREAMBLE + 4);
    int tag = tag(start);
    int vr = start.getShort();
    if (tag != GROUP_LENGTH || vr != (('L' << 8) | 'U') || start.getShort() != 4) {
      return Read.not("the file meta information does not say how long it is");
    }
    int length = start.getInt();
    if (length < 0 || length > LONGEST) {
      return Read.not("the file meta information is longer than 64 KiB");
    }
    byte[] meta = in.readNBytes(length);
    return meta.length < length ? Read.not("the file is cut off") : judged(uids(meta));
  }

  private static int tag(ByteBuffer at) {
    return (at.getShort() << 16) | (at.getShort() & 0xffff);
  }

  private static Map<Integer, String> uids(byte[] meta) {
    Map<Integer, String> uids = new TreeMap<>();
    ByteBuffer at = ByteBuffer.wrap(meta).order(ByteOrder.LITTLE_ENDIAN);
    while (at.remaining() >= 8) {
      int tag = tag(at);
      String vr = "" + (char) at.get() + (char) at.get();
      boolean wide = vr.matches("OB|OW|UN|SQ|UT");
      int length = at.getShort() & 0xffff;
      if (wide) {
        length = at.remaining() >= 4 ? at.getInt() : -1;
      }
      if (length < 0 || length > at.remaining()) {
        return Map.of();
      }
      byte[] value = new byte[length];
      at.get(value);
      uids.put(tag, new String(value, StandardCharsets.US_ASCII).replaceAll("[\\x00 ]+$", ""));
    }
    return uids;
  }

  private static Read judged(Map<Integer, String> uids) {
    Part10Head head =
        new Part10Head(
            uids.getOrDefault(SOP_CLASS, ""),
            uids.getOrDefault(SOP_INSTANCE, ""),
            uids.getOrDefault(TRANSFER_SYNTAX, ""));
    if (!Uids.sound(head.sopInstance)) {
      return Read.not("SOP Instance UID is not a UID");
    }
    if (!Uids.storage(head.sopClass)) {
      return Read.not(head.sopInstance + ": the class is not one that is stored");
    }
    if (TransferSyntax.ofUid(head.transferSyntax).isEmpty()) {
      return Read.not(head.sopInstance + ": the transfer syntax is not one of those read");
    }
    return new Read(Optional.of(head), "");
  }
}
