package org.isopach.dicom.network;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.NavigableMap;
import java.util.OptionalInt;
import java.util.TreeMap;

/** A command set: implicit little endian, group 0000 (PS3.7, 6.3 and annex E). Immutable. */
final class Command {
  static final int AFFECTED_SOP_CLASS = 0x0002;
  static final int REQUESTED_SOP_CLASS = 0x0003;
  static final int FIELD = 0x0100;
  static final int MESSAGE_ID = 0x0110;
  static final int RESPONDED_TO = 0x0120;
  static final int MOVE_DESTINATION = 0x0600;
  static final int PRIORITY = 0x0700;
  static final int DATA_SET_TYPE = 0x0800;
  static final int STATUS = 0x0900;
  static final int ERROR_COMMENT = 0x0902;
  static final int AFFECTED_SOP_INSTANCE = 0x1000;
  static final int REQUESTED_SOP_INSTANCE = 0x1001;
  static final int EVENT_TYPE = 0x1002;
  static final int ACTION_TYPE = 0x1008;
  static final int REMAINING = 0x1020;
  static final int COMPLETED = 0x1021;
  static final int FAILED = 0x1022;

  static final int C_STORE_RQ = 0x0001;
  static final int C_GET_RQ = 0x0010;
  static final int C_FIND_RQ = 0x0020;
  static final int C_MOVE_RQ = 0x0021;
  static final int C_ECHO_RQ = 0x0030;
  static final int N_EVENT_REPORT_RQ = 0x0100;
  static final int N_ACTION_RQ = 0x0130;
  static final int C_CANCEL_RQ = 0x0FFF;
  static final int RESPONSE = 0x8000;
  static final int NO_DATA_SET = 0x0101;
  static final int WITH_DATA_SET = 0x0001;

  private static final int HEAD = 8;
  private static final int FAILED_LIST_GROUP = 0x0008;
  private static final int FAILED_LIST = 0x0058;

  private final NavigableMap<Integer, byte[]> values;

  private Command(NavigableMap<Integer, byte[]> values) {
    this.values = values;
  }

  /** Returns an empty command of a kind. */
  static Command of(int field) {
    return new Command(new TreeMap<>()).with(FIELD, field);
  }

  /** Returns this command with a number of 16 bits. */
  Command with(int element, int number) {
    return with(element, new byte[] {(byte) number, (byte) (number >> 8)});
  }

  /** Returns this command with a UID. */
  Command withUid(int element, String uid) {
    return with(element, (uid.length() % 2 == 0 ? uid : uid + "\0").getBytes(charset()));
  }

  /** Returns this command with text. */
  Command withText(int element, String text) {
    return with(element, (text.length() % 2 == 0 ? text : text + " ").getBytes(charset()));
  }

  private Command with(int element, byte[] value) {
    NavigableMap<Integer, byte[]> more = new TreeMap<>(values);
    more.put(element, value);
    return new Command(more);
  }

  /** Returns a number of 16 bits, or empty when it is absent or of another length. */
  OptionalInt number(int element) {
    byte[] value = values.get(element);
    return value == null || value.length != Short.BYTES
        ? OptionalInt.empty()
        : OptionalInt.of(Byte.toUnsignedInt(value[0]) | Byte.toUnsignedInt(value[1]) << 8);
  }

  /** Returns text without padding, empty when absent. */
  String text(int element) {
    byte[] value = values.getOrDefault(element, new byte[0]);
    return new String(value, charset()).replace("\0", "").strip();
  }

  boolean hasDataSet() {
    return number(DATA_SET_TYPE).orElse(NO_DATA_SET) != NO_DATA_SET;
  }

  /**
   * Reads a command set. Failed SOP Instance UID List belongs into the data set of an answer, but
   * archives built on DCMTK put it here; it and its group's length are passed over.
   *
   * @throws AssociationException when an element is of another group, runs past the end, or comes
   *     twice
   */
  static Command decode(byte[] bytes) throws AssociationException {
    ByteBuffer in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    NavigableMap<Integer, byte[]> values = new TreeMap<>();
    while (in.hasRemaining()) {
      if (in.remaining() < HEAD) {
        throw broken("it ends within an element");
      }
      int group = Short.toUnsignedInt(in.getShort());
      int element = Short.toUnsignedInt(in.getShort());
      long length = Integer.toUnsignedLong(in.getInt());
      if (length > in.remaining()) {
        throw broken("an element runs past its end");
      }
      byte[] value = new byte[(int) length];
      in.get(value);
      if (group == FAILED_LIST_GROUP && (element == 0 || element == FAILED_LIST)) {
        continue;
      }
      if (group != 0) {
        throw broken(String.format("it holds element (%04X,%04X)", group, element));
      }
      if (values.put(element, value) != null) {
        throw broken("an element comes twice");
      }
    }
    values.remove(0);
    return new Command(values);
  }

  /** Returns the bytes, with the group's length in front. */
  byte[] encode() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (Map.Entry<Integer, byte[]> entry : values.entrySet()) {
      out.writeBytes(head(entry.getKey(), entry.getValue().length));
      out.writeBytes(entry.getValue());
    }
    ByteBuffer whole =
        ByteBuffer.allocate(HEAD + Integer.BYTES + out.size()).order(ByteOrder.LITTLE_ENDIAN);
    return whole.put(head(0, Integer.BYTES)).putInt(out.size()).put(out.toByteArray()).array();
  }

  private static byte[] head(int element, int length) {
    return ByteBuffer.allocate(HEAD)
        .order(ByteOrder.LITTLE_ENDIAN)
        .putShort((short) 0)
        .putShort((short) element)
        .putInt(length)
        .array();
  }

  private static java.nio.charset.Charset charset() {
    return StandardCharsets.ISO_8859_1;
  }

  private static AssociationException broken(String what) {
    return AssociationException.broken(
        AssociationException.INVALID_PARAMETER, "a command set is malformed: " + what);
  }
}
