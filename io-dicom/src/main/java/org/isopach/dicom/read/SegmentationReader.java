package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/**
 * Reads Segmentations (DICOM PS3.3, A.51; label maps of its 2024 and later editions from memory),
 * ours and others', whose frames each name the one frame they were derived from. Fractions become
 * masks at half of their maximum, and each mask says so.
 */
public final class SegmentationReader {
  private SegmentationReader() {}

  /**
   * Returns the masks of an object in the order of its frames; last, for each scan and segment that
   * has no frame in it, a mask of no frame.
   *
   * @throws ObjectDefect when the file is no segmentation, or not whole, or a frame names no
   *     segment or source
   * @throws IOException when the file cannot be read
   */
  public static List<SegmentMask> read(Path file) throws IOException, ObjectDefect {
    ParsedObject object = ParsedObject.of(file, new PixelMedObjectReader());
    Dataset attributes = object.attributes();
    String sopClass = attributes.text(Tags.SOP_CLASS_UID).orElse("");
    if (!sopClass.equals(SopKind.SEGMENTATION.uid()) && !sopClass.equals(SopKind.LABEL_MAP.uid())) {
      throw new ObjectDefect(FindingKind.NOT_OPHTHALMIC, "this is no segmentation");
    }
    int frames = whole(attributes, Tags.NUMBER_OF_FRAMES);
    FunctionalGroups groups = FunctionalGroups.of(attributes);
    if (groups.perFrameItems() != frames) {
      throw bad(
          frames + " frames, but " + groups.perFrameItems() + " items in (5200,9230) about them");
    }
    SegmentPixels pixels = SegmentPixels.open(object, (long) frames * framePixels(attributes));
    return masks(attributes, frames, groups, pixels);
  }

  private static List<SegmentMask> masks(
      Dataset attributes, int frames, FunctionalGroups groups, SegmentPixels pixels)
      throws IOException, ObjectDefect {
    int rows = whole(attributes, Tags.ROWS);
    int columns = whole(attributes, Tags.COLUMNS);
    Map<String, Set<Code>> seen = new LinkedHashMap<>();
    List<SegmentMask> masks = new ArrayList<>();
    long bytes = 0;
    for (int f = 0; f < frames; f++) {
      Dataset source = source(groups, f);
      String uid = source.text(Tags.REFERENCED_SOP_INSTANCE_UID).orElse("");
      int frame = whole(source, Tags.REFERENCED_FRAME_NUMBER) - 1;
      Set<Code> there = seen.computeIfAbsent(uid, scan -> new HashSet<>());
      for (SegmentPixels.Part part : pixels.frame(f, groups)) {
        there.add(part.type());
        bytes += (long) rows * columns / Byte.SIZE;
        SegmentPixels.requireRoom(bytes);
        masks.add(
            new SegmentMask(
                part.type(), pixels.reading(), uid, frame, rows, columns, part.inside()));
      }
    }
    Set<Code> types = new LinkedHashSet<>(pixels.segments().types().values());
    seen.forEach(
        (uid, there) ->
            types.stream()
                .filter(type -> !there.contains(type))
                .forEach(
                    type ->
                        masks.add(SegmentMask.none(type, pixels.reading(), uid, rows, columns))));
    return List.copyOf(masks);
  }

  private static Dataset source(FunctionalGroups groups, int frame) throws ObjectDefect {
    Dataset derivation =
        only(
            groups.macroItems(frame, Tags.DERIVATION_IMAGE_SEQUENCE),
            Tags.DERIVATION_IMAGE_SEQUENCE);
    return only(derivation.items(Tags.SOURCE_IMAGE_SEQUENCE), Tags.SOURCE_IMAGE_SEQUENCE);
  }

  static int framePixels(Dataset attributes) throws ObjectDefect {
    long pixels = (long) whole(attributes, Tags.ROWS) * whole(attributes, Tags.COLUMNS);
    if (pixels > Integer.MAX_VALUE) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING, "a frame of " + pixels + " pixels is too large");
    }
    return (int) pixels;
  }

  static Dataset only(List<Dataset> items, int tag) throws ObjectDefect {
    if (items.size() != 1) {
      throw bad(Tag.name(tag) + " has " + items.size() + " items instead of one");
    }
    return items.get(0);
  }

  private static int whole(Dataset dataset, int tag) throws ObjectDefect {
    return SegmentList.number(dataset, tag, 1, TomographyReader.MOST_FRAMES);
  }

  static ObjectDefect bad(String detail) {
    return new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, detail);
  }
}
