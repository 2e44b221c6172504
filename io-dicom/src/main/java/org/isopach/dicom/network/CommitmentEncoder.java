package org.isopach.dicom.network;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import org.isopach.dicom.data.TransferSyntax;

/** The bytes of requests for commitment and reports on them (tags of PS3.6; from memory). */
final class CommitmentEncoder {
  static final int CLASS_UID = 0x00081150;
  static final int INSTANCE_UID = 0x00081155;
  static final int TRANSACTION_UID = 0x00081195;
  static final int FAILURE_REASON = 0x00081197;
  static final int FAILED = 0x00081198;
  static final int REFERENCED = 0x00081199;
  static final int ITEM = 0xFFFEE000;
  private static final int LONGEST_HEAD = 12;

  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final boolean explicit;

  private CommitmentEncoder(boolean explicit) {
    this.explicit = explicit;
  }

  /** Encodes in implicit or explicit little endian; sequences without items are left out. */
  static byte[] encode(Commitment commitment, String transferSyntax) {
    boolean explicit = transferSyntax.equals(TransferSyntax.EXPLICIT_LITTLE.uid());
    CommitmentEncoder all = new CommitmentEncoder(explicit);
    CommitmentEncoder failed = new CommitmentEncoder(explicit);
    CommitmentEncoder referenced = new CommitmentEncoder(explicit);
    commitment.failed().forEach(one -> failed.item(one.instance(), one.reason()));
    commitment.referenced().forEach(one -> referenced.item(one, 0));
    all.uid(TRANSACTION_UID, commitment.transaction());
    all.sequence(FAILED, failed);
    all.sequence(REFERENCED, referenced);
    return all.out.toByteArray();
  }

  private void item(InstanceName name, int reason) {
    CommitmentEncoder inside = new CommitmentEncoder(explicit);
    inside.uid(CLASS_UID, name.sopClass());
    inside.uid(INSTANCE_UID, name.sopInstance());
    if (reason != 0) {
      inside.put(FAILURE_REASON, "US", new byte[] {(byte) reason, (byte) (reason >> Byte.SIZE)});
    }
    put(ITEM, "", inside.out.toByteArray());
  }

  private void sequence(int tag, CommitmentEncoder items) {
    if (items.out.size() > 0) {
      put(tag, "SQ", items.out.toByteArray());
    }
  }

  private void uid(int tag, String uid) {
    String even = uid.length() % 2 == 0 ? uid : uid + "\0";
    put(tag, "UI", even.getBytes(StandardCharsets.US_ASCII));
  }

  private void put(int tag, String vr, byte[] value) {
    ByteBuffer head = ByteBuffer.allocate(LONGEST_HEAD).order(ByteOrder.LITTLE_ENDIAN);
    head.putShort((short) (tag >>> Short.SIZE)).putShort((short) tag);
    if (explicit && tag != ITEM) {
      head.put(vr.getBytes(StandardCharsets.US_ASCII));
      if (vr.equals("SQ")) {
        head.putShort((short) 0).putInt(value.length);
      } else {
        head.putShort((short) value.length);
      }
    } else {
      head.putInt(value.length);
    }
    out.write(head.array(), 0, head.position());
    out.writeBytes(value);
  }
}
