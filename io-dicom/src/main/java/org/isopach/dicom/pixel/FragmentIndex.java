package org.isopach.dicom.pixel;

import java.io.IOException;
import java.util.Arrays;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.ByteSource;
import org.isopach.dicom.read.HeldBytes;
import org.isopach.dicom.read.ObjectDefect;

/**
 * Which bytes of encapsulated pixel data belong to which frame (DICOM PS3.5, annex A.4). Immutable.
 *
 * <p>Fragments are given to frames by the Basic Offset Table when it has an entry for every frame;
 * without one, each fragment is a frame when there are as many, and else a frame begins where a
 * fragment begins with the code stream's first marker. The Extended Offset Table is not needed.
 */
final class FragmentIndex {
  private final long[] positions;
  private final int[] lengths;
  private final int[] firstFragment;

  private FragmentIndex(long[] positions, int[] lengths, int[] firstFragment) {
    this.positions = positions;
    this.lengths = lengths;
    this.firstFragment = firstFragment;
  }

  /**
   * Finds the frames without decoding any.
   *
   * @param source the object's bytes
   * @param start position of the first item, that of the offset table
   * @param frames how many there should be
   * @throws ObjectDefect TRUNCATED when a fragment is cut, PIXEL_DATA_SHORT when frames are
   *     missing, UNSUPPORTED_ENCODING when fragments cannot be given to frames
   */
  static FragmentIndex of(ByteSource source, long start, TransferSyntax syntax, int frames)
      throws IOException, ObjectDefect {
    FragmentScan scan = FragmentScan.of(source, start);
    try (HeldBytes held = source.hold()) {
      int[] first = firstFragments(held, scan, syntax, frames);
      return new FragmentIndex(scan.positions(), scan.lengths(), first);
    }
  }

  /** Returns the compressed bytes of a frame. */
  byte[] frame(ByteSource source, int frame) throws IOException {
    long total = 0;
    for (int i = firstFragment[frame]; i < firstFragment[frame + 1]; i++) {
      total += lengths[i];
    }
    byte[] bytes = new byte[Math.toIntExact(total)];
    int at = 0;
    try (HeldBytes held = source.hold()) {
      for (int i = firstFragment[frame]; i < firstFragment[frame + 1]; i++) {
        held.read(positions[i], bytes, at, lengths[i]);
        at += lengths[i];
      }
    }
    return bytes;
  }

  private static int[] firstFragments(
      ByteSource source, FragmentScan scan, TransferSyntax syntax, int frames)
      throws IOException, ObjectDefect {
    int fragments = scan.positions().length;
    if (fragments < frames) {
      throw new ObjectDefect(
          FindingKind.PIXEL_DATA_SHORT,
          frames + " frames need as many fragments of Pixel Data, it has " + fragments);
    }
    int[] first = byOffsetTable(scan, frames);
    if (first == null && fragments == frames) {
      first = new int[frames + 1];
      Arrays.setAll(first, i -> i);
    }
    if (first == null && frames == 1) {
      first = new int[] {0, fragments};
    }
    return first == null ? byFirstMarker(source, scan, syntax, frames) : first;
  }

  /** Returns the first fragment of each frame, or null when the table does not give it. */
  private static int[] byOffsetTable(FragmentScan scan, int frames) {
    long[] offsets = scan.offsets();
    if (offsets.length != frames) {
      return null;
    }
    int[] first = new int[frames + 1];
    for (int f = 0; f < frames; f++) {
      int fragment = scan.fragmentAt(offsets[f]);
      if (fragment < 0 || (f > 0 && fragment <= first[f - 1])) {
        return null;
      }
      first[f] = fragment;
    }
    first[frames] = scan.positions().length;
    return first[0] == 0 ? first : null;
  }

  private static int[] byFirstMarker(
      ByteSource source, FragmentScan scan, TransferSyntax syntax, int frames)
      throws IOException, ObjectDefect {
    int marker = CodeStream.firstMarker(syntax);
    int[] first = new int[frames + 1];
    int found = 0;
    for (int i = 0; i < scan.positions().length && marker != 0; i++) {
      byte[] head = scan.lengths()[i] < 2 ? new byte[2] : source.read(scan.positions()[i], 2);
      if (((head[0] & 0xff) << 8 | (head[1] & 0xff)) == marker) {
        if (found == frames) {
          found++;
          break;
        }
        first[found++] = i;
      }
    }
    if (found < frames && found > 0) {
      throw new ObjectDefect(
          FindingKind.PIXEL_DATA_SHORT,
          frames + " frames are promised, the fragments hold " + found);
    }
    if (found != frames || first[0] != 0) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          scan.positions().length + " fragments cannot be given to " + frames + " frames");
    }
    first[frames] = scan.positions().length;
    return first;
  }
}
