package org.isopach.dicom.network;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;

/**
 * The attributes of a query or of an answer to one: text of single attributes in implicit little
 * endian (PS3.4, C.2.2.1), without sequences.
 */
final class Identifier {
  static final int STUDY_DATE = 0x00080020;
  static final int LEVEL = 0x00080052;
  static final int MODALITIES = 0x00080061;
  static final int PATIENT_ID = 0x00100020;
  static final int STUDY_UID = 0x0020000D;
  static final int INSTANCES = 0x00201208;
  private static final int HEAD = 8;

  private final NavigableMap<Integer, String> values = new TreeMap<>();

  /** Adds an attribute; an empty text asks for its value. */
  Identifier with(int tag, String text) {
    values.put(tag, text);
    return this;
  }

  /** Returns the text of an attribute, empty when absent. */
  String text(int tag) {
    return values.getOrDefault(tag, "");
  }

  byte[] encode() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (Map.Entry<Integer, String> one : values.entrySet()) {
      String pad = one.getKey() == STUDY_UID ? "\0" : " ";
      String even = one.getValue() + (one.getValue().length() % 2 == 0 ? "" : pad);
      out.writeBytes(
          ByteBuffer.allocate(HEAD)
              .order(ByteOrder.LITTLE_ENDIAN)
              .putShort((short) (one.getKey() >>> Short.SIZE))
              .putShort(one.getKey().shortValue())
              .putInt(even.length())
              .array());
      out.writeBytes(even.getBytes(StandardCharsets.US_ASCII));
    }
    return out.toByteArray();
  }

  /**
   * Reads an answer.
   *
   * @throws AssociationException when a length runs past its end, or an attribute is a sequence
   */
  static Identifier decode(byte[] bytes) throws AssociationException {
    Identifier found = new Identifier();
    ByteBuffer in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    while (in.hasRemaining()) {
      long length =
          in.remaining() < HEAD ? HEAD : Integer.toUnsignedLong(in.getInt(in.position() + 4));
      if (length > in.remaining() - HEAD) {
        throw AssociationException.broken(
            AssociationException.INVALID_PARAMETER, "an answer to a query is malformed");
      }
      int tag = in.getShort() << Short.SIZE | Short.toUnsignedInt(in.getShort());
      in.getInt();
      byte[] value = new byte[(int) length];
      in.get(value);
      String text = new String(value, StandardCharsets.ISO_8859_1);
      found.with(tag, text.replace("\0", "").strip());
    }
    return found;
  }
}
