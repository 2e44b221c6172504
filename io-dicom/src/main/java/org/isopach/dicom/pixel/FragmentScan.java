package org.isopach.dicom.pixel;

import java.io.IOException;
import java.util.Arrays;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.read.ByteSource;
import org.isopach.dicom.read.HeldBytes;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.Tag;

/** The items of encapsulated pixel data: the Basic Offset Table and where each fragment lies. */
final class FragmentScan {
  private static final int MOST_FRAGMENTS = 1 << 18;
  private static final int HEAD = 8;

  private final ByteSource source;
  private long[] positions = new long[128];
  private int[] lengths = new int[128];
  private int count;
  private long[] offsets = new long[0];

  private FragmentScan(ByteSource source) {
    this.source = source;
  }

  /** Steps over the items from the offset table to the delimiter. */
  static FragmentScan of(ByteSource source, long start) throws IOException, ObjectDefect {
    try (HeldBytes held = source.hold()) {
      FragmentScan scan = new FragmentScan(held);
      scan.run(start);
      return scan;
    }
  }

  private void run(long start) throws IOException, ObjectDefect {
    long at = readOffsets(start);
    for (long length = itemLength(at); length >= 0; length = itemLength(at)) {
      add(at + HEAD, (int) length);
      at += HEAD + length;
    }
    positions = Arrays.copyOf(positions, count);
    lengths = Arrays.copyOf(lengths, count);
  }

  /** Returns the positions of the fragments' first bytes; the caller must not change them. */
  long[] positions() {
    return positions;
  }

  /** Returns the fragments' lengths; the caller must not change them. */
  int[] lengths() {
    return lengths;
  }

  /** Returns the Basic Offset Table; may be empty; the caller must not change it. */
  long[] offsets() {
    return offsets;
  }

  /** Returns the fragment whose item begins at an offset from the first one's, or -1. */
  int fragmentAt(long offset) {
    if (count == 0) {
      return -1;
    }
    int i = Arrays.binarySearch(positions, 0, count, positions[0] + offset);
    return i < 0 ? -1 : i;
  }

  private long readOffsets(long at) throws IOException, ObjectDefect {
    long length = itemLength(at);
    if (length < 0) {
      throw new ObjectDefect(FindingKind.PIXEL_DATA_SHORT, "Pixel Data holds no fragments");
    }
    if (length > 4L * MOST_FRAGMENTS) {
      throw tooMany();
    }
    byte[] table = source.read(at + HEAD, (int) length);
    offsets = new long[table.length / 4];
    for (int i = 0; i < offsets.length; i++) {
      offsets[i] = u32(table, 4 * i);
    }
    return at + HEAD + length;
  }

  /** Returns the length of the item at a position, or -1 at the delimiter. */
  private long itemLength(long at) throws IOException, ObjectDefect {
    if (at + HEAD > source.size()) {
      throw cut();
    }
    byte[] head = source.read(at, HEAD);
    int tag = (int) (u32(head, 0) << 16 | u32(head, 0) >>> 16);
    long length = u32(head, 4);
    if (tag == Tag.SEQUENCE_END) {
      return -1;
    }
    if (tag != Tag.ITEM) {
      throw new ObjectDefect(
          FindingKind.TRUNCATED, "Pixel Data holds " + Tag.name(tag) + " in place of a fragment");
    }
    if (length > source.size() - at - HEAD) {
      throw cut();
    }
    if (length > Integer.MAX_VALUE / 2) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING, "a fragment of " + length + " bytes");
    }
    return length;
  }

  private void add(long position, int length) throws ObjectDefect {
    if (count == MOST_FRAGMENTS) {
      throw tooMany();
    }
    if (count == positions.length) {
      positions = Arrays.copyOf(positions, 2 * count);
      lengths = Arrays.copyOf(lengths, 2 * count);
    }
    positions[count] = position;
    lengths[count++] = length;
  }

  private static ObjectDefect cut() {
    return new ObjectDefect(FindingKind.TRUNCATED, "the file ends within the fragments");
  }

  private static ObjectDefect tooMany() {
    return new ObjectDefect(
        FindingKind.UNSUPPORTED_ENCODING, "more than " + MOST_FRAGMENTS + " fragments");
  }

  private static long u32(byte[] b, int i) {
    return (b[i] & 0xffL)
        | (b[i + 1] & 0xffL) << 8
        | (b[i + 2] & 0xffL) << 16
        | (b[i + 3] & 0xffL) << 24;
  }
}
