package org.isopach.dicom.network;

import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.isopach.dicom.data.TransferSyntax;

/** Reads requests for commitment and reports on them; other attributes are stepped over. */
final class CommitmentDecoder {
  private static final int ITEM_END = 0xFFFEE00D;
  private static final int SEQUENCE_END = 0xFFFEE0DD;
  private static final int ITEM_GROUP = 0xFFFE;
  private static final int UNDEFINED = -1;
  private static final int DEEPEST = 8;
  private static final Set<String> LONG_FORM =
      Set.of("OB", "OD", "OF", "OL", "OV", "OW", "SQ", "SV", "UC", "UN", "UR", "UT", "UV");

  private final ByteBuffer in;
  private final boolean explicit;
  private final List<InstanceName> referenced = new ArrayList<>();
  private final List<Commitment.Failed> failed = new ArrayList<>();
  private String transaction = "";

  private record Head(int tag, boolean sequence, int length) {}

  private CommitmentDecoder(byte[] bytes, boolean explicit) {
    this.in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    this.explicit = explicit;
  }

  /**
   * Reads a data set in implicit or explicit little endian.
   *
   * @throws AssociationException when a length runs past its end, or a sequence is nested too deep
   */
  static Commitment decode(byte[] bytes, String transferSyntax) throws AssociationException {
    CommitmentDecoder decoder =
        new CommitmentDecoder(bytes, transferSyntax.equals(TransferSyntax.EXPLICIT_LITTLE.uid()));
    try {
      decoder.top();
    } catch (BufferUnderflowException | IllegalArgumentException e) {
      throw malformed();
    }
    return new Commitment(decoder.transaction, decoder.referenced, decoder.failed);
  }

  private void top() throws AssociationException {
    while (in.hasRemaining()) {
      Head head = head();
      if (head.tag() == CommitmentEncoder.TRANSACTION_UID) {
        transaction = text(value(head));
      } else if (head.tag() == CommitmentEncoder.REFERENCED
          || head.tag() == CommitmentEncoder.FAILED) {
        items(head, 0);
      } else {
        skip(head, 0);
      }
    }
  }

  private Head head() {
    int tag = Short.toUnsignedInt(in.getShort()) << Short.SIZE | Short.toUnsignedInt(in.getShort());
    boolean known = tag == CommitmentEncoder.REFERENCED || tag == CommitmentEncoder.FAILED;
    if (!explicit || tag >>> Short.SIZE == ITEM_GROUP) {
      int length = in.getInt();
      return new Head(tag, known || length == UNDEFINED, length);
    }
    String vr = new String(new byte[] {in.get(), in.get()}, StandardCharsets.ISO_8859_1);
    if (!LONG_FORM.contains(vr)) {
      return new Head(tag, false, Short.toUnsignedInt(in.getShort()));
    }
    in.getShort();
    int length = in.getInt();
    return new Head(tag, vr.equals("SQ") || length == UNDEFINED, length);
  }

  private byte[] value(Head head) {
    if (head.length() < 0 || head.length() > in.remaining()) {
      throw new BufferUnderflowException();
    }
    byte[] value = new byte[head.length()];
    in.get(value);
    return value;
  }

  private static String text(byte[] value) {
    return new String(value, StandardCharsets.ISO_8859_1).replace('\0', ' ').strip();
  }

  /** Steps over a value, or over what a sequence of undefined length holds. */
  private void skip(Head head, int depth) throws AssociationException {
    if (head.length() == UNDEFINED) {
      items(head, depth + 1);
    } else {
      value(head);
    }
  }

  private void items(Head sequence, int depth) throws AssociationException {
    if (depth > DEEPEST || !sequence.sequence()) {
      throw malformed();
    }
    int end = end(sequence);
    while (in.position() < end) {
      Head item = head();
      if (item.tag() == SEQUENCE_END && sequence.length() == UNDEFINED) {
        return;
      }
      if (item.tag() != CommitmentEncoder.ITEM) {
        throw malformed();
      }
      item(item, sequence.tag(), depth);
    }
    if (in.position() != end || sequence.length() == UNDEFINED) {
      throw malformed();
    }
  }

  private int end(Head head) {
    if (head.length() == UNDEFINED) {
      return in.limit();
    }
    if (head.length() < 0 || head.length() > in.remaining()) {
      throw new BufferUnderflowException();
    }
    return in.position() + head.length();
  }

  private void item(Head item, int sequence, int depth) throws AssociationException {
    Map<Integer, byte[]> values = new TreeMap<>();
    int end = end(item);
    while (in.position() < end) {
      Head head = head();
      if (head.tag() == ITEM_END && item.length() == UNDEFINED) {
        take(values, sequence);
        return;
      }
      if (head.sequence()) {
        skip(head, depth);
      } else {
        values.put(head.tag(), value(head));
      }
    }
    if (in.position() != end || item.length() == UNDEFINED) {
      throw malformed();
    }
    take(values, sequence);
  }

  private void take(Map<Integer, byte[]> values, int sequence) {
    byte[] none = {};
    InstanceName name =
        new InstanceName(
            text(values.getOrDefault(CommitmentEncoder.CLASS_UID, none)),
            text(values.getOrDefault(CommitmentEncoder.INSTANCE_UID, none)));
    if (sequence == CommitmentEncoder.REFERENCED) {
      referenced.add(name);
    } else if (sequence == CommitmentEncoder.FAILED) {
      byte[] reason = values.getOrDefault(CommitmentEncoder.FAILURE_REASON, none);
      int number =
          reason.length == Short.BYTES
              ? Byte.toUnsignedInt(reason[0]) | Byte.toUnsignedInt(reason[1]) << Byte.SIZE
              : Commitment.PROCESSING_FAILURE;
      failed.add(new Commitment.Failed(name, number));
    }
  }

  private static AssociationException malformed() {
    return AssociationException.broken(
        AssociationException.INVALID_PARAMETER, "a data set about commitment is malformed");
  }
}
