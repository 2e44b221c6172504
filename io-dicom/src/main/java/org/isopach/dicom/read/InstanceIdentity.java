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
 * @param patientId byte by byte as the file has it, whatever its character set: enough to tell
 *     patients apart
 */
public record InstanceIdentity(
    String sopClassUid,
    String sopUid,
    String studyUid,
    String seriesUid,
    String transferSyntaxUid,
    long datasetStart,
    String patientId) {
  private static final int LONGEST_UID = 64;
  private static final int LONGEST_PATIENT_ID = 256;

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
    Map<Integer, String> texts = new TreeMap<>();
    try (HeldBytes held = sniff.source().hold()) {
      walk(new ByteWindow(held), sniff, texts);
    } catch (EOFException e) {
      throw new ObjectDefect(
          FindingKind.TRUNCATED, "the object ends within the head of an attribute", e);
    }
    return new InstanceIdentity(
        sniff.sopClassUid(),
        sniff.sopUid(),
        texts.getOrDefault(Tags.STUDY_INSTANCE_UID, ""),
        texts.getOrDefault(Tags.SERIES_INSTANCE_UID, ""),
        start.transferSyntaxUid(),
        start.datasetStart(),
        texts.getOrDefault(Tags.PATIENT_ID, ""));
  }

  /**
   * Returns the SOP class of a file by its first attributes alone; empty when not stated.
   *
   * @throws ObjectDefect NOT_DICOM or TRUNCATED
   */
  public static String sopClassOf(Path file) throws IOException, ObjectDefect {
    return ObjectSniff.of(FileBytes.of(file)).sopClassUid();
  }

  private static void walk(ByteWindow bytes, ObjectSniff sniff, Map<Integer, String> texts)
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
        texts.put(tag, bytes.text(head.valueStart(), length));
      } else if (tag == Tags.PATIENT_ID) {
        int length = (int) Math.min(head.length(), LONGEST_PATIENT_ID);
        texts.put(tag, bytes.text(head.valueStart(), length));
      }
    }
  }
}
