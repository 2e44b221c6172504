package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.TransferSyntax;

/**
 * Which object a file holds, of whatever kind, with every length in it checked against the file.
 *
 * @param sopClassUid empty when absent; so are the others
 * @param datasetStart position of the first attribute in the file
 * @param transferSyntaxUid as stated, or recognised without file meta information
 */
public record InstanceIdentity(
    String sopClassUid,
    String sopUid,
    String studyUid,
    String seriesUid,
    String transferSyntaxUid,
    long datasetStart) {
  private static final int LONGEST_UID = 64;

  /** Deflated objects are unpacked one at a time: each may take a third of the memory. */
  private static final Object UNPACKING = new Object();

  /**
   * Reads a file to its end; values are not held.
   *
   * @throws ObjectDefect NOT_DICOM, TRUNCATED, MALFORMED_ATTRIBUTE, or what keeps a deflated object
   *     from being unpacked
   */
  public static InstanceIdentity of(Path file) throws IOException, ObjectDefect {
    FileBytes bytes = FileBytes.of(file);
    FileStart start;
    try (HeldBytes held = bytes.hold()) {
      start = FileStart.of(new ByteWindow(held));
    }
    if (!start.transferSyntaxUid().equals(TransferSyntax.DEFLATED_LITTLE.uid())) {
      return of(bytes, start);
    }
    synchronized (UNPACKING) {
      return of(bytes, start);
    }
  }

  private static InstanceIdentity of(FileBytes bytes, FileStart start)
      throws IOException, ObjectDefect {
    ObjectSniff sniff = ObjectSniff.of(bytes);
    Map<Integer, String> uids = new TreeMap<>();
    try (HeldBytes held = sniff.source().hold()) {
      walk(new ByteWindow(held), sniff, uids);
    } catch (EOFException e) {
      throw new ObjectDefect(
          FindingKind.TRUNCATED, "the object ends within the head of an attribute", e);
    }
    return new InstanceIdentity(
        sniff.sopClassUid(),
        sniff.sopUid(),
        uids.getOrDefault(Tags.STUDY_INSTANCE_UID, ""),
        uids.getOrDefault(Tags.SERIES_INSTANCE_UID, ""),
        start.transferSyntaxUid(),
        start.datasetStart());
  }

  private static void walk(ByteWindow bytes, ObjectSniff sniff, Map<Integer, String> uids)
      throws IOException, ObjectDefect {
    Encoding encoding = ObjectSniff.encodingOf(sniff.transferSyntaxUid());
    StructureWalk walk = new StructureWalk(bytes);
    long at = sniff.datasetStart();
    while (at < bytes.size()) {
      ElementHead head = ElementHead.at(bytes, at, encoding);
      int tag = head.tag();
      at = walk.endOf(head, encoding, bytes.size());
      if (tag == Tags.STUDY_INSTANCE_UID || tag == Tags.SERIES_INSTANCE_UID) {
        int length = (int) Math.min(head.length(), LONGEST_UID + 1);
        uids.put(tag, bytes.text(head.valueStart(), length));
      }
    }
  }
}
