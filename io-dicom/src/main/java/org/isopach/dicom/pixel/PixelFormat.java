package org.isopach.dicom.pixel;

import java.util.Objects;
import java.util.Set;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.GreyRange;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.read.NumberField;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.Tag;

/**
 * How grey values are stored (DICOM PS3.3, section C.7.6.3; PS3.5, section 8.1).
 *
 * @param rows pixels down the picture, at least 1
 * @param columns pixels across the picture, at least 1
 * @param bitsAllocated 8 or 16
 * @param bitsStored 1 to {@code bitsAllocated}
 * @param highBit 0-based place of the most significant stored bit
 * @param signed whether values are two's complement
 * @param inverted whether the smallest value is white (MONOCHROME1)
 */
public record PixelFormat(
    int rows,
    int columns,
    int bitsAllocated,
    int bitsStored,
    int highBit,
    boolean signed,
    boolean inverted) {
  private static final Set<String> GREY = Set.of("MONOCHROME1", "MONOCHROME2");
  private static final Set<String> INDEXES = Set.of("MONOCHROME2", "PALETTE COLOR");

  public PixelFormat {
    if (rows < 1 || columns < 1 || rows > 65_535 || columns > 65_535) {
      throw new IllegalArgumentException("impossible extent " + rows + " x " + columns);
    }
    if ((bitsAllocated != 8 && bitsAllocated != 16)
        || bitsStored < 1
        || bitsStored > bitsAllocated
        || highBit < bitsStored - 1
        || highBit >= bitsAllocated) {
      throw new IllegalArgumentException(
          "impossible bits " + bitsAllocated + ", " + bitsStored + ", " + highBit);
    }
  }

  /**
   * Reads the format of an object.
   *
   * @throws ObjectDefect MALFORMED_ATTRIBUTE when an attribute is missing or impossible,
   *     UNSUPPORTED_ENCODING when the pixels are not grey of 8 or 16 bits
   */
  public static PixelFormat of(Dataset object) throws ObjectDefect {
    return of(object, GREY);
  }

  /**
   * Reads the format of an object whose pixels are numbers of something, with or without colours to
   * show them in.
   *
   * @throws ObjectDefect as above
   */
  public static PixelFormat ofIndexes(Dataset object) throws ObjectDefect {
    return of(object, INDEXES);
  }

  private static PixelFormat of(Dataset object, Set<String> taken) throws ObjectDefect {
    Objects.requireNonNull(object, "object");
    int samples = integer(object, Tags.SAMPLES_PER_PIXEL, "Samples per Pixel");
    String photometric = object.text(Tags.PHOTOMETRIC_INTERPRETATION).orElse("");
    if (samples != 1 || !taken.contains(photometric)) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "pixels are \"" + photometric + "\" of " + samples + " samples, not grey");
    }
    int allocated = integer(object, Tags.BITS_ALLOCATED, "Bits Allocated");
    if (allocated != 8 && allocated != 16) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING, "Bits Allocated is " + allocated + ", not 8 or 16");
    }
    try {
      return new PixelFormat(
          integer(object, Tags.ROWS, "Rows"),
          integer(object, Tags.COLUMNS, "Columns"),
          allocated,
          integer(object, Tags.BITS_STORED, "Bits Stored"),
          integer(object, Tags.HIGH_BIT, "High Bit"),
          integer(object, Tags.PIXEL_REPRESENTATION, "Pixel Representation") == 1,
          photometric.equals("MONOCHROME1"));
    } catch (IllegalArgumentException e) {
      throw new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, e.getMessage(), e);
    }
  }

  /** Returns this format with stored values left as they are, whichever end is white. */
  public PixelFormat notInverted() {
    return new PixelFormat(rows, columns, bitsAllocated, bitsStored, highBit, signed, false);
  }

  /** Returns the bytes of one uncompressed frame. */
  public long frameBytes() {
    return (long) rows * columns * (bitsAllocated / 8);
  }

  /** Returns the number of pixels in one frame. */
  public int framePixels() {
    return Math.multiplyExact(rows, columns);
  }

  /** Returns the range of values that can be stored. */
  public GreyRange range() {
    double values = 1L << bitsStored;
    return signed ? new GreyRange(-values / 2, values / 2 - 1) : new GreyRange(0, values - 1);
  }

  private static int integer(Dataset object, int tag, String name) throws ObjectDefect {
    NumberField field = NumberField.of(object, tag);
    if (field.values().isEmpty() || field.values().get(0) != Math.rint(field.values().get(0))) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE, name + " " + Tag.name(tag) + " is " + field.words());
    }
    return field.values().get(0).intValue();
  }
}
