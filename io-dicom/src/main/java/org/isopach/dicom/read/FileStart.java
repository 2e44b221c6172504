package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.TransferSyntax;

/**
 * Where the data set of a file begins and how it is encoded.
 *
 * @param datasetStart position of the first attribute after the file meta information
 * @param transferSyntaxUid as stated, or recognised from the first attribute when there is no file
 *     meta information
 * @param mediaSopClassUid the SOP class by the file meta information, empty without
 */
record FileStart(long datasetStart, String transferSyntaxUid, String mediaSopClassUid) {
  private static final int PREAMBLE = 128;

  /**
   * Recognises a file with or without preamble and file meta information (DICOM PS3.10, section
   * 7.1).
   *
   * @throws ObjectDefect NOT_DICOM when the file begins with neither, TRUNCATED when it ends within
   */
  static FileStart of(ByteWindow bytes) throws IOException, ObjectDefect {
    long size = bytes.size();
    if (size == 0) {
      throw new ObjectDefect(FindingKind.NOT_DICOM, "the file is empty");
    }
    try {
      if (size >= PREAMBLE + 4 && isPrefix(bytes)) {
        return metaOrDataset(bytes, PREAMBLE + 4);
      }
      if (size >= 8 && plausibleFirstTag(bytes)) {
        return metaOrDataset(bytes, 0);
      }
    } catch (EOFException e) {
      throw new ObjectDefect(
          FindingKind.TRUNCATED, "the file ends within its file meta information", e);
    }
    throw new ObjectDefect(
        FindingKind.NOT_DICOM, "the file begins with neither a DICOM prefix nor an attribute");
  }

  private static boolean isPrefix(ByteWindow bytes) throws IOException {
    return bytes.twoLetters(PREAMBLE).equals("DI") && bytes.twoLetters(PREAMBLE + 2).equals("CM");
  }

  private static boolean plausibleFirstTag(ByteWindow bytes) throws IOException {
    int group = bytes.u16(0, false);
    int bigGroup = bytes.u16(0, true);
    boolean little = group == 0x0002 || group == 0x0008;
    boolean big = bigGroup == 0x0008;
    int element = bytes.u16(2, !little && big);
    if (!(little || big) || element > 0x2112) {
      return false;
    }
    return looksExplicit(bytes, 0) || (little && bytes.u32(4, false) <= bytes.size() - 8);
  }

  private static boolean looksExplicit(ByteWindow bytes, long position) throws IOException {
    String vr = bytes.twoLetters(position + 4);
    return Character.isUpperCase(vr.charAt(0))
        && Character.isUpperCase(vr.charAt(1))
        && vr.charAt(0) < 128
        && vr.charAt(1) < 128;
  }

  private static FileStart metaOrDataset(ByteWindow bytes, long start)
      throws IOException, ObjectDefect {
    String uid = "";
    String mediaSopClass = "";
    long at = start;
    while (at + 8 <= bytes.size() && bytes.u16(at, false) == 0x0002) {
      ElementHead head = ElementHead.at(bytes, at, Encoding.EXPLICIT_LITTLE);
      if (head.undefinedLength() || head.end() > bytes.size()) {
        throw new ObjectDefect(
            FindingKind.TRUNCATED, "the file ends within its file meta information");
      }
      if (head.tag() == Tag.TRANSFER_SYNTAX_UID) {
        uid = bytes.text(head.valueStart(), (int) Math.min(head.length(), 64));
      }
      if (head.tag() == Tag.MEDIA_SOP_CLASS_UID) {
        mediaSopClass = bytes.text(head.valueStart(), (int) Math.min(head.length(), 64));
      }
      at = head.end();
    }
    if (at + 8 > bytes.size()) {
      throw new ObjectDefect(FindingKind.TRUNCATED, "the file ends before its first attribute");
    }
    String syntax = uid.isEmpty() ? recognised(bytes, at).uid() : uid;
    return new FileStart(at, syntax, mediaSopClass);
  }

  private static TransferSyntax recognised(ByteWindow bytes, long at) throws IOException {
    if (!looksExplicit(bytes, at)) {
      return TransferSyntax.IMPLICIT_LITTLE;
    }
    boolean big = bytes.u16(at, false) > 0xff && bytes.u16(at, true) <= 0xff;
    return big ? TransferSyntax.EXPLICIT_BIG : TransferSyntax.EXPLICIT_LITTLE;
  }
}
