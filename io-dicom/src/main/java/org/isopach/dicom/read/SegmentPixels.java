package org.isopach.dicom.read;

import java.io.IOException;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.pixel.PixelFormat;

/** The pixels of a Segmentation, frame by frame as pixels of segments. */
abstract class SegmentPixels {
  /** One frame's pixels of one segment. */
  record Part(Code type, BitSet inside) {}

  /** The share of Maximum Fractional Value from which on a pixel counts. Ours. */
  static final double THRESHOLD = 0.5;

  /** The most bytes of masks of one object. */
  static final long MOST_BYTES = 1L << 27;

  private final SegmentList segments;

  private SegmentPixels(SegmentList segments) {
    this.segments = segments;
  }

  /** Returns how pixels are read, in words; empty where there is nothing to say. */
  String reading() {
    return "";
  }

  SegmentList segments() {
    return segments;
  }

  /**
   * Returns a frame's parts.
   *
   * @param groups where the frame names its segment
   */
  abstract List<Part> frame(int frame, FunctionalGroups groups) throws IOException, ObjectDefect;

  /**
   * Opens the pixels by Segmentation Type.
   *
   * @param pixels of all frames
   * @throws ObjectDefect when there are fewer than promised or they cannot be understood
   */
  static SegmentPixels open(ParsedObject object, long pixels) throws IOException, ObjectDefect {
    if (pixels > MOST_BYTES * Byte.SIZE) {
      throw new ObjectDefect(FindingKind.UNSUPPORTED_ENCODING, pixels + " pixels are too many");
    }
    Dataset attributes = object.attributes();
    String type = attributes.text(Tags.SEGMENTATION_TYPE).orElse("");
    return switch (type) {
      case "BINARY" -> new Binary(object, pixels);
      case "FRACTIONAL" -> new Fractions(object);
      case "LABELMAP" -> new Labels(object);
      default ->
          throw new ObjectDefect(
              FindingKind.UNSUPPORTED_ENCODING,
              "Segmentation Type (0062,0001) is \"" + type + "\", which is not read");
    };
  }

  /** Refuses masks of more bytes than there is room for. */
  static void requireRoom(long bytes) throws ObjectDefect {
    if (bytes > MOST_BYTES) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "its segments need more than " + (MOST_BYTES >> 20) + " MiB in memory");
    }
  }

  Code named(int frame, FunctionalGroups groups) throws ObjectDefect {
    Dataset item =
        SegmentationReader.only(
            groups.macroItems(frame, Tags.SEGMENT_IDENTIFICATION_SEQUENCE),
            Tags.SEGMENT_IDENTIFICATION_SEQUENCE);
    int number = SegmentList.number(item, Tags.REFERENCED_SEGMENT_NUMBER, 1, SegmentList.MOST);
    return segments.type(number, "a frame names");
  }

  private static PixelFormat unsigned(PixelFormat format) throws ObjectDefect {
    if (format.signed()) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE, "Pixel Representation (0028,0103) is signed");
    }
    return format.notInverted();
  }

  /** One bit for a pixel, frames following on without filling. */
  private static final class Binary extends SegmentPixels {
    private final byte[] bits;
    private final int pixels;

    Binary(ParsedObject object, long all) throws IOException, ObjectDefect {
      super(SegmentList.of(object.attributes(), 1));
      PixelLocation location = object.requirePixels();
      if (location.inFragments()) {
        throw new ObjectDefect(
            FindingKind.UNSUPPORTED_ENCODING, "compressed binary segmentations are not read");
      }
      long bytes = (all + 7) / 8;
      if (location.length() < bytes) {
        throw new ObjectDefect(
            FindingKind.PIXEL_DATA_SHORT, bytes + " bytes needed, " + location.length() + " there");
      }
      this.bits = object.source().read(location.offset(), (int) bytes);
      this.pixels = SegmentationReader.framePixels(object.attributes());
    }

    @Override
    List<Part> frame(int frame, FunctionalGroups groups) throws ObjectDefect {
      Code type = named(frame, groups);
      BitSet mask = new BitSet();
      for (int i = 0; i < pixels; i++) {
        long at = (long) frame * pixels + i;
        if ((bits[(int) (at >>> 3)] >>> (at & 7) & 1) != 0) {
          mask.set(i);
        }
      }
      return List.of(new Part(type, mask));
    }
  }

  /** Fractions; a pixel counts from half of Maximum Fractional Value on. */
  private static final class Fractions extends SegmentPixels {
    private final ObjectPixels pixels;
    private final float[] room;
    private final int most;
    private final String kind;

    Fractions(ParsedObject object) throws IOException, ObjectDefect {
      super(SegmentList.of(object.attributes(), 1));
      Dataset attributes = object.attributes();
      this.kind = attributes.text(Tags.SEGMENTATION_FRACTIONAL_TYPE).orElse("");
      if (!kind.equals("PROBABILITY") && !kind.equals("OCCUPANCY")) {
        throw SegmentationReader.bad(
            "Segmentation Fractional Type (0062,0010) is \""
                + kind
                + "\": what its fractions are is not known");
      }
      this.most =
          SegmentList.number(attributes, Tags.MAXIMUM_FRACTIONAL_VALUE, 1, SegmentList.MOST);
      this.pixels = ObjectPixels.open(object, unsigned(PixelFormat.of(attributes)));
      this.room = pixels.room();
    }

    @Override
    String reading() {
      return "fraction >= " + THRESHOLD + " (" + kind + ")";
    }

    @Override
    List<Part> frame(int frame, FunctionalGroups groups) throws ObjectDefect {
      Code type = named(frame, groups);
      pixels.read(frame, room);
      BitSet mask = new BitSet();
      for (int i = 0; i < room.length; i++) {
        if (room[i] > most) {
          throw SegmentationReader.bad(
              "a pixel is " + (int) room[i] + ", above Maximum Fractional Value, " + most);
        }
        if (room[i] >= THRESHOLD * most) {
          mask.set(i);
        }
      }
      return List.of(new Part(type, mask));
    }
  }

  /** Numbers of segments; 0 is the background. */
  private static final class Labels extends SegmentPixels {
    private final ObjectPixels pixels;
    private final float[] room;

    Labels(ParsedObject object) throws IOException, ObjectDefect {
      super(SegmentList.of(object.attributes(), 0));
      Dataset attributes = object.attributes();
      if (attributes.has(Tags.PIXEL_PADDING_VALUE)
          && SegmentList.number(attributes, Tags.PIXEL_PADDING_VALUE, 0, SegmentList.MOST) != 0) {
        throw SegmentationReader.bad(
            "Pixel Padding Value (0028,0120) is not 0: another background than 0 is not read");
      }
      this.pixels = ObjectPixels.open(object, unsigned(PixelFormat.ofIndexes(attributes)));
      this.room = pixels.room();
    }

    @Override
    List<Part> frame(int frame, FunctionalGroups groups) throws ObjectDefect {
      pixels.read(frame, room);
      Map<Integer, Part> found = new TreeMap<>();
      for (int i = 0; i < room.length; i++) {
        int number = (int) room[i];
        if (number != 0) {
          if (!found.containsKey(number)) {
            found.put(number, part(number, found.size()));
          }
          found.get(number).inside().set(i);
        }
      }
      return List.copyOf(found.values());
    }

    private Part part(int number, int others) throws ObjectDefect {
      Code type = segments().type(number, "a pixel has the number of");
      requireRoom((others + 1L) * room.length / Byte.SIZE);
      return new Part(type, new BitSet());
    }
  }
}
