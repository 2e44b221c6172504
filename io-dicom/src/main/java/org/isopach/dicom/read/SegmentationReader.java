package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/**
 * Reads binary Segmentations (DICOM PS3.3, A.51), ours and others', whose frames each name one
 * segment and the one frame they were derived from.
 */
public final class SegmentationReader {
  private static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.66.4";
  private static final long MOST_BYTES = 1L << 27;

  private SegmentationReader() {}

  /**
   * Returns the masks of an object in the order of its frames.
   *
   * @throws ObjectDefect when the file is no binary segmentation, or not whole, or a frame names no
   *     segment or source
   * @throws IOException when the file cannot be read
   */
  public static List<SegmentMask> read(Path file) throws IOException, ObjectDefect {
    ParsedObject object = ParsedObject.of(file, new PixelMedObjectReader());
    Dataset attributes = object.attributes();
    if (attributes.text(Tags.SOP_CLASS_UID).filter(SOP_CLASS_UID::equals).isEmpty()
        || attributes.text(Tags.SEGMENTATION_TYPE).filter("BINARY"::equals).isEmpty()) {
      throw new ObjectDefect(FindingKind.NOT_OPHTHALMIC, "this is no binary segmentation");
    }
    int rows = whole(attributes, Tags.ROWS);
    int columns = whole(attributes, Tags.COLUMNS);
    List<Dataset> frames = attributes.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE);
    if (frames.size() != whole(attributes, Tags.NUMBER_OF_FRAMES)) {
      throw bad("frames and the items for them differ in number");
    }
    byte[] bits = bits(object, (long) frames.size() * rows * columns);
    List<SegmentMask> masks = new ArrayList<>();
    for (int i = 0; i < frames.size(); i++) {
      Dataset source =
          only(only(frames.get(i), Tags.DERIVATION_IMAGE_SEQUENCE), Tags.SOURCE_IMAGE_SEQUENCE);
      masks.add(
          new SegmentMask(
              type(attributes, frames.get(i)),
              source.text(Tags.REFERENCED_SOP_INSTANCE_UID).orElse(""),
              whole(source, Tags.REFERENCED_FRAME_NUMBER) - 1,
              rows,
              columns,
              unpacked(bits, (long) i * rows * columns, rows * columns)));
    }
    return List.copyOf(masks);
  }

  private static byte[] bits(ParsedObject object, long pixels) throws IOException, ObjectDefect {
    PixelLocation location = object.requirePixels();
    if (location.inFragments()) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING, "compressed segmentations are not read");
    }
    long bytes = (pixels + 7) / 8;
    if (location.length() < bytes || bytes > MOST_BYTES) {
      throw new ObjectDefect(
          FindingKind.PIXEL_DATA_SHORT, bytes + " bytes needed, " + location.length() + " there");
    }
    return object.source().read(location.offset(), (int) bytes);
  }

  private static BitSet unpacked(byte[] bits, long first, int count) {
    BitSet mask = new BitSet(count);
    for (int i = 0; i < count; i++) {
      long at = first + i;
      mask.set(i, (bits[(int) (at >>> 3)] >>> (at & 7) & 1) != 0);
    }
    return mask;
  }

  private static Code type(Dataset attributes, Dataset frame) throws ObjectDefect {
    List<Double> number =
        NumberField.of(
                only(frame, Tags.SEGMENT_IDENTIFICATION_SEQUENCE), Tags.REFERENCED_SEGMENT_NUMBER)
            .values();
    for (Dataset segment : attributes.items(Tags.SEGMENT_SEQUENCE)) {
      if (NumberField.of(segment, Tags.SEGMENT_NUMBER).values().equals(number)) {
        return Code.of(only(segment, Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE))
            .orElseThrow(() -> bad("segment " + number + " has no type"));
      }
    }
    throw bad("a frame names a segment that is not there: " + number);
  }

  private static Dataset only(Dataset outer, int tag) throws ObjectDefect {
    List<Dataset> items = outer.items(tag);
    if (items.size() != 1) {
      throw bad(Tag.name(tag) + " has " + items.size() + " items instead of one");
    }
    return items.get(0);
  }

  private static int whole(Dataset dataset, int tag) throws ObjectDefect {
    List<Double> values = NumberField.of(dataset, tag).values();
    if (values.size() != 1
        || !(values.get(0) >= 1 && values.get(0) <= TomographyReader.MOST_FRAMES)) {
      throw bad(Tag.name(tag) + " is no single positive number");
    }
    return values.get(0).intValue();
  }

  private static ObjectDefect bad(String detail) {
    return new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, detail);
  }
}
