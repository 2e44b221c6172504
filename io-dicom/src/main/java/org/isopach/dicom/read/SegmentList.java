package org.isopach.dicom.read;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/** The segments of a Segmentation by their numbers; what each is. */
final class SegmentList {
  static final int MOST = 65_535;

  private final Map<Integer, Code> types = new LinkedHashMap<>();

  private SegmentList() {}

  /**
   * Reads the Segment Sequence.
   *
   * @param least the smallest number that may stand there: 0 for label maps, whose background may
   *     be listed and is left out, else 1
   * @throws ObjectDefect MALFORMED_ATTRIBUTE when there is none, a number stands twice, or a
   *     segment has no number or no type
   */
  static SegmentList of(Dataset attributes, int least) throws ObjectDefect {
    SegmentList list = new SegmentList();
    for (Dataset segment : attributes.items(Tags.SEGMENT_SEQUENCE)) {
      int number = number(segment, Tags.SEGMENT_NUMBER, least, MOST);
      if (number == 0) {
        continue;
      }
      List<Dataset> type = segment.items(Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE);
      Optional<Code> code = type.size() == 1 ? Code.of(type.get(0)) : Optional.empty();
      if (code.isEmpty()) {
        throw SegmentationReader.bad("segment " + number + " has no type, or more than one");
      }
      if (list.types.put(number, code.get()) != null) {
        throw SegmentationReader.bad("segment number " + number + " stands twice");
      }
    }
    if (list.types.isEmpty()) {
      throw SegmentationReader.bad("Segment Sequence (0062,0002) has no segment");
    }
    return list;
  }

  /** Returns what every segment is, in the object's order. */
  Map<Integer, Code> types() {
    return types;
  }

  /**
   * Returns what a segment is.
   *
   * @throws ObjectDefect when there is none of that number
   */
  Code type(int number, String who) throws ObjectDefect {
    Code type = types.get(number);
    if (type == null) {
      throw SegmentationReader.bad(who + " a segment that is not there: " + number);
    }
    return type;
  }

  /** Returns an attribute's single whole number within limits. */
  static int number(Dataset dataset, int tag, int least, int most) throws ObjectDefect {
    NumberField field = NumberField.of(dataset, tag);
    List<Double> values = field.values();
    if (values.size() != 1
        || !(values.get(0) >= least && values.get(0) <= most)
        || values.get(0) != Math.rint(values.get(0))) {
      throw SegmentationReader.bad(
          Tag.name(tag)
              + " is "
              + field.words()
              + ", not one whole number from "
              + least
              + " to "
              + most);
    }
    return values.get(0).intValue();
  }
}
