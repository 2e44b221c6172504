package org.isopach.dicom.read;

import java.io.IOException;
import java.util.Set;

/**
 * What stands before a value: tag, value representation, length (DICOM PS3.5, section 7.1).
 *
 * @param tag {@code 0xggggeeee}
 * @param vr two letters, empty in implicit encoding and for items and delimiters
 * @param valueStart position of the first byte of the value
 * @param length of the value in bytes, or {@link #UNDEFINED}
 * @param sound whether the value representation is one of the standard and reserved bytes are 0, so
 *     that any parser takes the length for the same
 */
record ElementHead(int tag, String vr, long valueStart, long length, boolean sound) {
  static final long UNDEFINED = 0xffffffffL;
  private static final int ITEM_GROUP = 0xfffe;
  private static final Set<String> LONG_FORM =
      Set.of("OB", "OD", "OF", "OL", "OV", "OW", "SQ", "SV", "UC", "UN", "UR", "UT", "UV");

  private static final Set<String> SHORT_FORM =
      Set.of(
          "AE", "AS", "AT", "CS", "DA", "DS", "DT", "FD", "FL", "IS", "LO", "LT", "PN", "SH", "SL",
          "SS", "ST", "TM", "UI", "UL", "US");

  /** Reads the head of the attribute at a position. */
  static ElementHead at(ByteWindow bytes, long position, Encoding encoding) throws IOException {
    boolean big = encoding.bigEndian();
    int tag = bytes.tag(position, big);
    if (!encoding.explicitVr() || tag >>> 16 == ITEM_GROUP) {
      return new ElementHead(tag, "", position + 8, bytes.u32(position + 4, big), true);
    }
    String vr = bytes.twoLetters(position + 4);
    if (LONG_FORM.contains(vr)) {
      boolean reserved = bytes.u16(position + 6, big) == 0;
      return new ElementHead(tag, vr, position + 12, bytes.u32(position + 8, big), reserved);
    }
    int length = bytes.u16(position + 6, big);
    return new ElementHead(tag, vr, position + 8, length, SHORT_FORM.contains(vr));
  }

  boolean undefinedLength() {
    return length == UNDEFINED;
  }

  /** Returns the position after the value; only for a defined length. */
  long end() {
    return valueStart + length;
  }

  /** Returns whether the attribute belongs to a private group. */
  boolean privateGroup() {
    return (tag >>> 16 & 1) == 1;
  }

  /** Returns the tag as the standard writes it. */
  String name() {
    return Tag.name(tag);
  }
}
