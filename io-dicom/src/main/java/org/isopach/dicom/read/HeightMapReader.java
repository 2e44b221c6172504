package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/**
 * Reads Height Map Segmentations (DICOM PS3.3, A.91), ours and others'; little endian, not
 * compressed. Padding, from its value to the limit of its range, becomes NaN.
 */
public final class HeightMapReader {
  private static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.66.8";
  private static final long MOST_VALUES = 1L << 28;
  private static final int MOST_EACH = 65_535;

  private final ParsedObject object;
  private final Dataset attributes;

  private HeightMapReader(ParsedObject object) {
    this.object = object;
    this.attributes = object.attributes();
  }

  /**
   * Returns the surfaces of an object in the order of its frames.
   *
   * @throws ObjectDefect when the file is no height map, or not whole, or a frame names no surface
   * @throws IOException when the file cannot be read
   */
  public static List<HeightMap> read(Path file) throws IOException, ObjectDefect {
    ParsedObject object = ParsedObject.of(file, new PixelMedObjectReader());
    if (object.attributes().text(Tags.SOP_CLASS_UID).filter(SOP_CLASS_UID::equals).isEmpty()) {
      throw new ObjectDefect(FindingKind.NOT_OPHTHALMIC, "this is no height map");
    }
    return new HeightMapReader(object).surfaces();
  }

  private List<HeightMap> surfaces() throws IOException, ObjectDefect {
    int rows = whole(Tags.ROWS);
    int columns = whole(Tags.COLUMNS);
    int count = whole(Tags.NUMBER_OF_FRAMES);
    FloatBuffers pixels = pixels((long) rows * columns * count);
    List<Dataset> frames = attributes.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE);
    if (frames.size() != count) {
      throw bad("there are " + count + " frames and " + frames.size() + " items for them");
    }
    List<HeightMap> surfaces = new ArrayList<>();
    for (Dataset frame : frames) {
      float[] values = pixels.next(rows * columns);
      surfaces.add(new HeightMap(surface(frame), sources(frame), rows, columns, values));
    }
    return List.copyOf(surfaces);
  }

  private int whole(int tag) throws ObjectDefect {
    NumberField field = NumberField.of(attributes, tag);
    if (field.values().size() != 1
        || !(field.values().get(0) >= 1 && field.values().get(0) <= MOST_EACH)) {
      throw bad("rows, columns or frames are " + field.words());
    }
    return field.values().get(0).intValue();
  }

  private FloatBuffers pixels(long count) throws IOException, ObjectDefect {
    PixelLocation location = object.requirePixels();
    if (location.tag() != Tags.FLOAT_PIXEL_DATA || location.inFragments()) {
      throw bad("the surfaces are not in Float Pixel Data (7FE0,0008)");
    }
    boolean bigEndian = object.syntax() == TransferSyntax.EXPLICIT_BIG;
    if (count > MOST_VALUES || location.length() < count * Float.BYTES) {
      throw new ObjectDefect(
          FindingKind.PIXEL_DATA_SHORT,
          count + " values do not fit " + location.length() + " bytes");
    }
    byte[] bytes = object.source().read(location.offset(), (int) count * Float.BYTES);
    Padding padding =
        Padding.of(
            first(Tags.FLOAT_PIXEL_PADDING_VALUE), first(Tags.FLOAT_PIXEL_PADDING_RANGE_LIMIT));
    ByteOrder order = bigEndian ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
    return new FloatBuffers(ByteBuffer.wrap(bytes).order(order), padding);
  }

  private OptionalDouble first(int tag) {
    return NumberField.of(attributes, tag).values().stream()
        .mapToDouble(Double::doubleValue)
        .findFirst();
  }

  /** Values in their order. */
  private record FloatBuffers(ByteBuffer bytes, Padding padding) {
    float[] next(int count) {
      float[] values = new float[count];
      for (int i = 0; i < count; i++) {
        values[i] = (float) padding.apply(bytes.getFloat());
      }
      return values;
    }
  }

  private Code surface(Dataset frame) throws ObjectDefect {
    List<Double> number =
        group(frame, Tags.SEGMENT_IDENTIFICATION_SEQUENCE)
            .map(item -> NumberField.of(item, Tags.REFERENCED_SEGMENT_NUMBER).values())
            .orElse(List.of());
    for (Dataset segment : attributes.items(Tags.SEGMENT_SEQUENCE)) {
      if (number.size() == 1
          && NumberField.of(segment, Tags.SEGMENT_NUMBER).values().equals(number)) {
        return segment.items(Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE).stream()
            .findFirst()
            .flatMap(Code::of)
            .orElseThrow(() -> bad("segment " + number + " has no type"));
      }
    }
    throw bad("a frame names no segment");
  }

  private List<String> sources(Dataset frame) {
    List<String> uids = new ArrayList<>();
    for (Dataset derivation :
        group(frame, Tags.DERIVATION_IMAGE_SEQUENCE).map(List::of).orElse(List.of())) {
      for (Dataset source : derivation.items(Tags.SOURCE_IMAGE_SEQUENCE)) {
        source.text(Tags.REFERENCED_SOP_INSTANCE_UID).ifPresent(uids::add);
      }
    }
    return uids;
  }

  /** Returns a functional group's first item, a frame's own before the shared one. */
  private Optional<Dataset> group(Dataset frame, int tag) {
    return frame.items(tag).stream()
        .findFirst()
        .or(
            () ->
                attributes.items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).stream()
                    .flatMap(shared -> shared.items(tag).stream())
                    .findFirst());
  }

  private static ObjectDefect bad(String detail) {
    return new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, detail);
  }
}
