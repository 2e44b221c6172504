package org.isopach.dicom.deidentify;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.isopach.dicom.read.ByteSource;

/**
 * The texts a compressed frame can hold beside its picture: comments and application segments of
 * JPEG and JPEG-LS (ITU-T T.81, B.1.1.2 and B.2.4), comments of JPEG 2000 in front of the picture
 * and of each tile-part (ITU-T T.800, A.4 and A.9.2). For one frame.
 */
final class CodeStreamComments {
  private static final int JPEG_START = 0xFFD8;
  private static final int WAVELET_START = 0xFF4F;
  private static final int SCAN = 0xFFDA;
  private static final int TILE_PART = 0xFF90;
  private static final int TILE_DATA = 0xFF93;
  private static final int TILE_PART_LENGTH = 12;
  private static final int FILL = 0xFFFF;
  private static final int COMMENT = 0xFFFE;
  private static final int WAVELET_COMMENT = 0xFF64;
  private static final int PIECE = 1 << 16;

  /**
   * What encoders write of themselves, as DCMTK, GDCM with OpenJPEG 2.5, OpenJPH 0.9 and the JPEG
   * 2000 plug-in of Java's image library were seen to: the head of JFIF without a thumbnail (ITU-T
   * T.871, 10.1), and version comments in Latin-1. Adobe has its segment of ITU-T T.872 (the form
   * is from memory).
   */
  private static final List<Pattern> HARMLESS =
      List.of(
          Pattern.compile("\uffe0JFIF\0.{7}\0\0", Pattern.DOTALL),
          Pattern.compile("\uffeeAdobe.{7}", Pattern.DOTALL),
          Pattern.compile(
              "\uff64\0\u0001Created by (GDCM/)?OpenJPEG version \\d{1,2}\\.\\d{1,2}\\.\\d{1,2}"),
          Pattern.compile("\uff64\0\u0001OpenJPH Ver \\d{1,2}\\.\\d{1,2}\\.\\d{1,2}\\."),
          Pattern.compile("\uff64\0\u0001Created by: JJ2000 version \\d{1,2}\\.\\d{1,2}"),
          Pattern.compile("[\ufffe\uff64\uffe0-\uffef][\0\u0001 ]*"));

  private final ByteSource source;
  private final long end;
  private final List<String> segments = new ArrayList<>();

  private CodeStreamComments(ByteSource source, long end) {
    this.source = source;
    this.end = end;
  }

  /**
   * Looks at a fragment; one that begins no code stream passes.
   *
   * @throws Refusal when a comment or application segment could say anything, or when the segments
   *     cannot be followed
   */
  static void check(ByteSource source, long from, long length, KnownTexts known)
      throws IOException, Refusal {
    CodeStreamComments stream = new CodeStreamComments(source, from + length);
    if (length > 3 && stream.u16(from) == JPEG_START) {
      stream.requireNoneFrom(stream.follow(from + 2));
    } else if (length > 3 && stream.u16(from) == WAVELET_START) {
      stream.tileParts(stream.follow(from + 2));
    }
    for (String segment : stream.segments) {
      if (known.in(segment.substring(1).getBytes(StandardCharsets.ISO_8859_1))) {
        throw PixelStream.textFound();
      }
      if (HARMLESS.stream().noneMatch(form -> form.matcher(segment).matches())) {
        throw unknown();
      }
    }
  }

  /** Follows marker segments and returns where a scan, a tile-part or its data begin. */
  private long follow(long from) throws IOException, Refusal {
    long at = from;
    while (at + 4 <= end) {
      int marker = u16(at);
      if (marker == SCAN || marker == TILE_PART || marker == TILE_DATA) {
        return at;
      }
      if (marker == FILL) {
        at++;
        continue;
      }
      int length = u16(at + 2);
      if (marker >>> 8 != 0xff || length < 2 || at + 2 + length > end) {
        break;
      }
      if (marker >>> 4 == 0xffe || marker == COMMENT || marker == WAVELET_COMMENT) {
        byte[] value = source.read(at + 4, length - 2);
        segments.add((char) marker + new String(value, StandardCharsets.ISO_8859_1));
      }
      at += 2 + length;
    }
    throw new Refusal("the header of a compressed frame is damaged");
  }

  /** Follows the head of each tile-part; the last may have no length and reach to the end. */
  private void tileParts(long from) throws IOException, Refusal {
    long at = from;
    while (at + TILE_PART_LENGTH < end && u16(at) == TILE_PART) {
      follow(at + TILE_PART_LENGTH);
      long length = ((long) u16(at + 6) << 16) + u16(at + 8);
      if (length == 0) {
        return;
      }
      at += Math.max(length, TILE_PART_LENGTH);
    }
  }

  /** In the data of a scan these two bytes never follow each other, so they are a marker. */
  private void requireNoneFrom(long from) throws IOException, Refusal {
    int last = 0;
    for (long at = from; at < end; at += PIECE) {
      for (byte one : source.read(at, (int) Math.min(PIECE, end - at))) {
        int marker = last << 8 | (one & 0xff);
        if (marker == COMMENT || marker >>> 4 == 0xffe) {
          throw unknown();
        }
        last = one & 0xff;
      }
    }
  }

  private static Refusal unknown() {
    return new Refusal(
        "a compressed frame has a comment or application segment of unknown content");
  }

  private int u16(long at) throws IOException {
    byte[] two = source.read(at, 2);
    return (two[0] & 0xff) << 8 | (two[1] & 0xff);
  }
}
