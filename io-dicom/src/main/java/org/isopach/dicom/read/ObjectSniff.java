package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.TransferSyntax;

/**
 * What an object is, read from its first attributes only.
 *
 * @param source its bytes; unpacked when the transfer syntax is deflated
 * @param datasetStart position of the first attribute
 * @param transferSyntaxUid as stated or recognised
 * @param sopClassUid from the data set, else from the file meta information; empty when absent
 * @param sopUid empty when absent
 */
record ObjectSniff(
    ByteSource source,
    long datasetStart,
    String transferSyntaxUid,
    String sopClassUid,
    String sopUid) {
  private static final int LONGEST_UID = 64;

  /**
   * Recognises an object.
   *
   * @throws ObjectDefect NOT_DICOM or TRUNCATED
   */
  static ObjectSniff of(ByteSource file) throws IOException, ObjectDefect {
    FileStart start;
    try (HeldBytes held = file.hold()) {
      start = FileStart.of(new ByteWindow(held));
    }
    boolean deflated = start.transferSyntaxUid().equals(TransferSyntax.DEFLATED_LITTLE.uid());
    ByteSource source = deflated ? InflatedBytes.of(file, start.datasetStart()) : file;
    long datasetStart = deflated ? 0 : start.datasetStart();
    String[] uids = uids(source, datasetStart, encodingOf(start.transferSyntaxUid()));
    String sopClass = uids[0].isEmpty() ? start.mediaSopClassUid() : uids[0];
    return new ObjectSniff(source, datasetStart, start.transferSyntaxUid(), sopClass, uids[1]);
  }

  /** Returns the transfer syntax, or empty when it is not one of those read. */
  Optional<TransferSyntax> syntax() {
    return TransferSyntax.ofUid(transferSyntaxUid);
  }

  /** Returns the layout of the attributes; explicit little endian for all others (PS3.5, A.4). */
  static Encoding encodingOf(String transferSyntaxUid) {
    return TransferSyntax.ofUid(transferSyntaxUid)
        .map(Encoding::of)
        .orElse(Encoding.EXPLICIT_LITTLE);
  }

  private static String[] uids(ByteSource source, long start, Encoding encoding)
      throws IOException, ObjectDefect {
    try (HeldBytes held = source.hold()) {
      return uids(new ByteWindow(held), start, encoding);
    }
  }

  private static String[] uids(ByteWindow bytes, long start, Encoding encoding)
      throws IOException, ObjectDefect {
    StructureWalk walk = new StructureWalk(bytes);
    String[] uids = {"", ""};
    long at = start;
    try {
      while (at < bytes.size()) {
        ElementHead head = ElementHead.at(bytes, at, encoding);
        if (Integer.compareUnsigned(head.tag(), Tags.SOP_INSTANCE_UID) > 0) {
          break;
        }
        at = walk.endOf(head, encoding, bytes.size());
        if (head.tag() == Tags.SOP_CLASS_UID || head.tag() == Tags.SOP_INSTANCE_UID) {
          int length = (int) Math.min(head.length(), LONGEST_UID);
          uids[head.tag() == Tags.SOP_CLASS_UID ? 0 : 1] = bytes.text(head.valueStart(), length);
        }
      }
    } catch (EOFException e) {
      throw new ObjectDefect(FindingKind.TRUNCATED, "the file ends within its first attributes", e);
    }
    return uids;
  }
}
