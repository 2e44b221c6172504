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
 */
record ElementHead(int tag, String vr, long valueStart, long length) {
  static final long UNDEFINED = 0xffffffffL;
  private static final int ITEM_GROUP = 0xfffe;
  private static final Set<String> LONG_FORM =
      Set.of("OB", "OD", "OF", "OL", "OV", "OW", "SQ", "SV", "UC", "UN", "UR", "UT", "UV");

  /** Reads the head of the attribute at a position. */
  static ElementHead at(ByteWindow bytes, long position, Encoding encoding) throws IOException {
    boolean big = encoding.bigEndian();
    int tag = bytes.tag(position, big);
    if (!encoding.explicitVr() || tag >>> 16 == ITEM_GROUP) {
      return new ElementHead(tag, "", position + 8, bytes.u32(position + 4, big));
    }
    String vr = bytes.twoLetters(position + 4);
    if (LONG_FORM.contains(vr)) {
      return new ElementHead(tag, vr, position + 12, bytes.u32(position + 8, big));
    }
    return new ElementHead(tag, vr, position + 8, bytes.u16(position + 6, big));
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
