package org.isopach.dicom.read;

import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * Collects the encoded attributes before Pixel Data, with every length checked, and finds the pixel
 * data.
 *
 * <p>Private groups, icons and single values above 1 MiB are left out: nothing of them is read, and
 * a parser need not hold them. The rest may be 64 MiB at most.
 */
final class HeaderScan {
  /** The most attributes that are stepped over, before Pixel Data or behind it. */
  static final int MOST_LEFT_OUT = 1_000_000;

  private static final int LARGEST_VALUE = 1 << 20;
  private static final int LARGEST_HEADER = 64 << 20;

  private static final Set<Integer> PIXELS =
      Set.of(Tags.PIXEL_DATA, Tags.FLOAT_PIXEL_DATA, Tags.DOUBLE_FLOAT_PIXEL_DATA);

  private final ByteSource source;
  private final ByteWindow bytes;
  private final Encoding encoding;
  private final StructureWalk walk;
  private final ByteArrayOutputStream kept = new ByteArrayOutputStream(16 * 1024);
  private final List<Integer> keptTags = new ArrayList<>();
  private final List<Integer> leftOut = new ArrayList<>();
  private PixelLocation pixels;

  private HeaderScan(ByteSource source, ByteWindow bytes, Encoding encoding) {
    this.source = source;
    this.bytes = bytes;
    this.encoding = encoding;
    this.walk = new StructureWalk(bytes);
  }

  /** Returns the scan of a data set that begins at a position. */
  static HeaderScan of(ByteSource source, long start, Encoding encoding)
      throws IOException, ObjectDefect {
    try (HeldBytes held = source.hold()) {
      HeaderScan scan = new HeaderScan(held, new ByteWindow(held), encoding);
      scan.run(start);
      return scan;
    }
  }

  /** Returns the encoded attributes, without Pixel Data. */
  byte[] attributes() {
    return kept.toByteArray();
  }

  /**
   * Checks that a parser left nothing out: what it cannot make sense of must not pass for absent.
   *
   * @throws ObjectDefect MALFORMED_ATTRIBUTE when an attribute of the outermost level is gone
   */
  void requireAll(Dataset parsed) throws ObjectDefect {
    for (int tag : keptTags) {
      if (!parsed.has(tag) && (tag & 0xffff) != 0) {
        throw new ObjectDefect(
            FindingKind.MALFORMED_ATTRIBUTE,
            "the value of "
                + Tag.name(tag)
                + " cannot be read; when it is text in the character set "
                + String.join("\\", parsed.texts(Tags.SPECIFIC_CHARACTER_SET))
                + ", 'dcmconv +U8' of DCMTK may rewrite it");
      }
    }
  }

  /** Returns the tags of what was not kept, in the order of the file. */
  List<Integer> leftOut() {
    return List.copyOf(leftOut);
  }

  /** Returns where the pixel data lie, or empty when there are none. */
  Optional<PixelLocation> pixels() {
    return Optional.ofNullable(pixels);
  }

  private void run(long start) throws IOException, ObjectDefect {
    long at = start;
    while (at < bytes.size()) {
      ElementHead head = headAt(at);
      if (PIXELS.contains(head.tag())) {
        pixels = locate(head);
        return;
      }
      long end = walk.endOf(head, encoding, bytes.size());
      if (wanted(head)) {
        keptTags.add(head.tag());
        keep(at, end);
      } else {
        leaveOut(head);
      }
      at = end;
    }
  }

  private void leaveOut(ElementHead head) throws ObjectDefect {
    if (leftOut.size() == MOST_LEFT_OUT) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "there are more than " + MOST_LEFT_OUT + " private or large attributes");
    }
    leftOut.add(head.tag());
  }

  private PixelLocation locate(ElementHead head) throws ObjectDefect {
    if (!head.undefinedLength() && head.end() > bytes.size()) {
      throw new ObjectDefect(
          FindingKind.TRUNCATED,
          "Pixel Data claims "
              + head.length()
              + " bytes where "
              + (bytes.size() - head.valueStart())
              + " are left");
    }
    return new PixelLocation(
        head.valueStart(),
        head.undefinedLength() ? -1 : head.length(),
        !head.vr().equals("OB"),
        head.tag());
  }

  private ElementHead headAt(long at) throws IOException, ObjectDefect {
    try {
      return ElementHead.at(bytes, at, encoding);
    } catch (EOFException e) {
      throw new ObjectDefect(
          FindingKind.TRUNCATED, "the file ends within the head of an attribute", e);
    }
  }

  private static boolean wanted(ElementHead head) {
    boolean sequence = head.vr().equals("SQ") || head.undefinedLength() || head.vr().isEmpty();
    return !head.privateGroup()
        && head.tag() != Tag.ICON_IMAGE_SEQUENCE
        && (sequence || head.length() <= LARGEST_VALUE);
  }

  private void keep(long from, long to) throws IOException, ObjectDefect {
    if (to - from > LARGEST_HEADER - kept.size()) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "the attributes before Pixel Data exceed " + (LARGEST_HEADER >> 20) + " MiB");
    }
    kept.writeBytes(source.read(from, (int) (to - from)));
  }
}
