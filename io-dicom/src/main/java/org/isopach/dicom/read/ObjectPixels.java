package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.pixel.PixelFormat;

/**
 * The frames an object promises, opened without regard to what the object is.
 *
 * @param format how values are stored
 * @param count how many frames there should be; 1 when the object does not say
 * @param frames reads them
 */
record ObjectPixels(PixelFormat format, int count, FrameSource frames) {
  /**
   * Opens an object's frames; none is decoded but the head of the first.
   *
   * @throws ObjectDefect TRUNCATED or PIXEL_DATA_SHORT when frames are missing, else why the pixel
   *     data cannot be understood
   * @throws IOException when the file cannot be read
   */
  static ObjectPixels open(ParsedObject object) throws ObjectDefect, IOException {
    return open(object, false);
  }

  /**
   * Opens an object's frames as above.
   *
   * @param asStored whether stored values stay as they are, whichever end is white
   */
  static ObjectPixels open(ParsedObject object, boolean asStored) throws ObjectDefect, IOException {
    PixelFormat stated = PixelFormat.of(object.attributes());
    return open(object, asStored ? stated.notInverted() : stated);
  }

  /** Opens an object's frames as above, of a format known. */
  static ObjectPixels open(ParsedObject object, PixelFormat format)
      throws ObjectDefect, IOException {
    int count =
        NumberField.of(object.attributes(), Tags.NUMBER_OF_FRAMES).values().stream()
            .findFirst()
            .filter(number -> number >= 1 && number <= TomographyReader.MOST_FRAMES)
            .map(Double::intValue)
            .orElse(1);
    FrameSource frames = object.frames(format, count);
    return new ObjectPixels(format, count, frames);
  }

  /** Returns whether a file ends too early or cannot be read; other defects do not count. */
  static boolean incomplete(Path path, HeaderParser parser) {
    try {
      open(ParsedObject.of(path, parser));
      return false;
    } catch (ObjectDefect e) {
      return e.kind() == FindingKind.TRUNCATED || e.kind() == FindingKind.PIXEL_DATA_SHORT;
    } catch (IOException e) {
      return true;
    }
  }

  /**
   * Reads the stored values of a frame, index {@code row * columns + column}.
   *
   * @param to filled
   * @throws ObjectDefect when it cannot be decoded
   */
  void read(int frame, float[] to) throws ObjectDefect {
    try {
      frames.read(frame, to);
    } catch (FrameReadException e) {
      throw new ObjectDefect(FindingKind.UNSUPPORTED_ENCODING, e.getMessage(), e);
    }
  }

  /** Returns a place for one frame's grey values. */
  float[] room() {
    return new float[format.framePixels()];
  }

  /** Returns the frames of an object, or empty when they cannot be understood. */
  static Optional<ObjectPixels> ifReadable(ParsedObject object) throws IOException {
    try {
      return Optional.of(open(object));
    } catch (ObjectDefect e) {
      return Optional.empty();
    }
  }
}
