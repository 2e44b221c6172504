package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/**
 * Reads en face images of tomography (DICOM PS3.3, A.83, C.8.17.14), ours and others', of one frame
 * and without compression.
 */
public final class EnFaceReader {
  private static final long MOST_PIXELS = 1L << 26;
  private static final int BYTE = 8;

  private EnFaceReader() {}

  /**
   * Returns the image of an object.
   *
   * @throws ObjectDefect when the file is no en face image, is compressed or not whole, or lacks
   *     what is shown or its Pixel Spacing
   * @throws IOException when the file cannot be read
   */
  public static EnFaceImage read(Path file) throws IOException, ObjectDefect {
    ParsedObject object = ParsedObject.of(file, new PixelMedObjectReader());
    Dataset attributes = object.attributes();
    if (attributes
        .text(Tags.SOP_CLASS_UID)
        .flatMap(SopKind::ofUid)
        .filter(SopKind.EN_FACE::equals)
        .isEmpty()) {
      throw new ObjectDefect(FindingKind.NOT_OPHTHALMIC, "this is no en face image");
    }
    List<Double> spacing = NumberField.of(attributes, Tags.PIXEL_SPACING).values();
    if (spacing.size() != 2 || !(spacing.get(0) > 0 && spacing.get(1) > 0)) {
      throw bad("Pixel Spacing (0028,0030) is not two positive numbers");
    }
    Code type =
        attributes.items(Tags.OPHTHALMIC_IMAGE_TYPE_CODE_SEQUENCE).stream()
            .findFirst()
            .flatMap(Code::of)
            .orElseThrow(() -> bad("Ophthalmic Image Type Code Sequence (0022,1615) is missing"));
    int rows = whole(attributes, Tags.ROWS);
    int columns = whole(attributes, Tags.COLUMNS);
    return new EnFaceImage(
        type,
        ThicknessObjectReader.sources(attributes),
        spacing.get(0),
        spacing.get(1),
        columns,
        greys(object, (long) rows * columns));
  }

  private static int[] greys(ParsedObject object, long pixels) throws IOException, ObjectDefect {
    PixelLocation location = object.requirePixels();
    if (location.inFragments()) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING, "compressed en face images are not read");
    }
    int bits = whole(object.attributes(), Tags.BITS_ALLOCATED);
    if (bits != BYTE || (location.words() && bigEndian(object))) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING, "en face images of 8 bits, little endian, are read");
    }
    if (pixels > MOST_PIXELS || location.length() < pixels) {
      throw new ObjectDefect(
          FindingKind.PIXEL_DATA_SHORT, pixels + " bytes needed, " + location.length() + " there");
    }
    byte[] bytes = object.source().read(location.offset(), (int) pixels);
    int[] greys = new int[bytes.length];
    for (int i = 0; i < greys.length; i++) {
      greys[i] = bytes[i] & 0xff;
    }
    return greys;
  }

  private static boolean bigEndian(ParsedObject object) {
    return Encoding.of(object.syntax()).bigEndian();
  }

  private static int whole(Dataset dataset, int tag) throws ObjectDefect {
    List<Double> values = NumberField.of(dataset, tag).values();
    if (values.size() != 1 || !(values.get(0) >= 1 && values.get(0) <= 0xffff)) {
      throw bad(Tag.name(tag) + " is no single positive number");
    }
    return values.get(0).intValue();
  }

  private static ObjectDefect bad(String detail) {
    return new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, detail);
  }
}
