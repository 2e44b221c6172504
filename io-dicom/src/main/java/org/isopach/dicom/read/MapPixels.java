package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.List;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.TransferSyntax;

/**
 * The stored pixels of a map: Float Pixel Data, Double Float Pixel Data or integer Pixel Data, read
 * frame by frame. Padding becomes NaN.
 */
abstract class MapPixels {
  private static final int MOST_EACH = 65_535;
  private static final int MOST_PIXELS = 1 << 26;

  private final int rows;
  private final int columns;
  private final int frames;

  private MapPixels(int rows, int columns, int frames) {
    this.rows = rows;
    this.columns = columns;
    this.frames = frames;
  }

  /**
   * Opens an object's pixels; none is read.
   *
   * @throws ObjectDefect when there are none, or fewer than promised, or they cannot be understood
   */
  static MapPixels open(ParsedObject object) throws IOException, ObjectDefect {
    if (object.requirePixels().tag() == Tags.PIXEL_DATA) {
      return new Whole(object, ObjectPixels.open(object, true));
    }
    return new Floating(object);
  }

  int rows() {
    return rows;
  }

  int columns() {
    return columns;
  }

  int frames() {
    return frames;
  }

  /** Returns whether stored values are signed integers. */
  abstract boolean signed();

  /** Returns the stored values of a frame, index {@code row * columns + column}. */
  abstract double[] frame(int frame) throws IOException, ObjectDefect;

  /** Integers, however they are packed. */
  private static final class Whole extends MapPixels {
    private final ObjectPixels pixels;
    private final Padding padding;

    Whole(ParsedObject object, ObjectPixels pixels) {
      super(pixels.format().rows(), pixels.format().columns(), pixels.count());
      this.pixels = pixels;
      this.padding =
          Padding.of(
              ThicknessMapping.stored(
                  object.attributes(), Tags.PIXEL_PADDING_VALUE, pixels.format().signed()),
              ThicknessMapping.stored(
                  object.attributes(), Tags.PIXEL_PADDING_RANGE_LIMIT, pixels.format().signed()));
    }

    @Override
    boolean signed() {
      return pixels.format().signed();
    }

    @Override
    double[] frame(int frame) throws IOException, ObjectDefect {
      float[] stored = pixels.room();
      pixels.read(frame, stored);
      double[] values = new double[stored.length];
      for (int i = 0; i < values.length; i++) {
        values[i] = padding.apply(stored[i]);
      }
      return values;
    }
  }

  /** Numbers of 4 or 8 bytes. */
  private static final class Floating extends MapPixels {
    private final ParsedObject object;
    private final PixelLocation location;
    private final int bytes;
    private final Padding padding;

    Floating(ParsedObject object) throws ObjectDefect {
      super(
          whole(object.attributes(), Tags.ROWS),
          whole(object.attributes(), Tags.COLUMNS),
          object.attributes().has(Tags.NUMBER_OF_FRAMES)
              ? whole(object.attributes(), Tags.NUMBER_OF_FRAMES)
              : 1);
      this.object = object;
      this.location = object.requirePixels();
      boolean single = location.tag() == Tags.FLOAT_PIXEL_DATA;
      this.bytes = single ? Float.BYTES : Double.BYTES;
      this.padding =
          single
              ? Padding.of(
                  first(Tags.FLOAT_PIXEL_PADDING_VALUE),
                  first(Tags.FLOAT_PIXEL_PADDING_RANGE_LIMIT))
              : Padding.of(
                  first(Tags.DOUBLE_FLOAT_PIXEL_PADDING_VALUE),
                  first(Tags.DOUBLE_FLOAT_PIXEL_PADDING_RANGE_LIMIT));
      long pixels = (long) rows() * columns();
      if (pixels > MOST_PIXELS) {
        throw new ObjectDefect(
            FindingKind.UNSUPPORTED_ENCODING, rows() + " x " + columns() + " pixels are too many");
      }
      if (location.inFragments() || location.length() < pixels * frames() * bytes) {
        throw new ObjectDefect(
            FindingKind.PIXEL_DATA_SHORT,
            frames() + " frames do not fit " + location.length() + " bytes");
      }
    }

    private OptionalDouble first(int tag) {
      return NumberField.of(object.attributes(), tag).values().stream()
          .mapToDouble(Double::doubleValue)
          .findFirst();
    }

    private static int whole(Dataset attributes, int tag) throws ObjectDefect {
      NumberField field = NumberField.of(attributes, tag);
      List<Double> values = field.values();
      if (values.size() != 1 || !(values.get(0) >= 1 && values.get(0) <= MOST_EACH)) {
        throw new ObjectDefect(
            FindingKind.MALFORMED_ATTRIBUTE, Tag.name(tag) + " is " + field.words());
      }
      return values.get(0).intValue();
    }

    @Override
    boolean signed() {
      return true;
    }

    @Override
    double[] frame(int frame) throws IOException {
      int pixels = rows() * columns();
      byte[] read =
          object.source().read(location.offset() + (long) frame * pixels * bytes, pixels * bytes);
      boolean big = object.syntax() == TransferSyntax.EXPLICIT_BIG;
      ByteBuffer buffer =
          ByteBuffer.wrap(read).order(big ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN);
      double[] values = new double[pixels];
      for (int i = 0; i < pixels; i++) {
        values[i] = padding.apply(bytes == Float.BYTES ? buffer.getFloat() : buffer.getDouble());
      }
      return values;
    }
  }
}
