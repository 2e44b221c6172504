package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * What stored values of a thickness map mean in µm: Real World Value Mapping by slope and intercept
 * or by table (DICOM PS3.3, section C.7.6.16.2.11). Immutable.
 *
 * <p>Padding, values outside every mapping's range, and values that come out negative or not finite
 * have no thickness.
 */
final class ThicknessMapping {
  private final List<Range> ranges;
  private final OptionalDouble paddingLow;
  private final OptionalDouble paddingHigh;

  /** One mapping: stored values from first to last, a table or a line. */
  private record Range(
      double first, double last, double slope, double intercept, List<Double> table) {}

  private ThicknessMapping(
      List<Range> ranges, OptionalDouble paddingLow, OptionalDouble paddingHigh) {
    this.ranges = ranges;
    this.paddingLow = paddingLow;
    this.paddingHigh = paddingHigh;
  }

  /**
   * Reads the mapping of an object.
   *
   * @param signed whether stored values are
   * @throws ObjectDefect MALFORMED_ATTRIBUTE when there is no usable mapping to µm
   */
  static ThicknessMapping of(Dataset object, boolean signed) throws ObjectDefect {
    List<Range> ranges = new ArrayList<>();
    for (Dataset item : object.items(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE)) {
      ranges.add(range(item, signed));
    }
    if (ranges.isEmpty()) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE,
          "Real World Value Mapping Sequence (0040,9096) is missing or empty");
    }
    OptionalDouble value = stored(object, Tags.PIXEL_PADDING_VALUE, signed);
    OptionalDouble limit = stored(object, Tags.PIXEL_PADDING_RANGE_LIMIT, signed);
    if (value.isEmpty() || limit.isEmpty()) {
      return new ThicknessMapping(ranges, value, value);
    }
    double a = value.getAsDouble();
    double b = limit.getAsDouble();
    return new ThicknessMapping(
        ranges, OptionalDouble.of(Math.min(a, b)), OptionalDouble.of(Math.max(a, b)));
  }

  /** Returns the thickness in µm of a stored value, NaN where there is none. */
  double micrometres(double stored) {
    boolean padding =
        paddingLow.isPresent()
            && stored >= paddingLow.getAsDouble()
            && stored <= paddingHigh.getAsDouble();
    if (padding) {
      return Double.NaN;
    }
    for (Range range : ranges) {
      if (stored >= range.first() && stored <= range.last()) {
        double um =
            range.table().isEmpty()
                ? range.slope() * stored + range.intercept()
                : range.table().get((int) (stored - range.first()));
        return um >= 0 && um < Float.MAX_VALUE ? um : Double.NaN;
      }
    }
    return Double.NaN;
  }

  private static Range range(Dataset item, boolean signed) throws ObjectDefect {
    requireMicrometres(item);
    double first =
        limit(
            item,
            Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED,
            Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_FIRST_VALUE_MAPPED,
            signed);
    double last =
        limit(
            item,
            Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED,
            Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_LAST_VALUE_MAPPED,
            signed);
    List<Double> table = NumberField.of(item, Tags.REAL_WORLD_VALUE_LUT_DATA).values();
    if (!table.isEmpty()) {
      if (!(last >= first) || table.size() < last - first + 1 || first != Math.rint(first)) {
        throw malformed(
            "Real World Value LUT Data (0040,9212) has "
                + table.size()
                + " entries for "
                + first
                + " to "
                + last);
      }
      return new Range(first, last, 0, 0, table);
    }
    double slope = number(item, Tags.REAL_WORLD_VALUE_SLOPE);
    return new Range(first, last, slope, number(item, Tags.REAL_WORLD_VALUE_INTERCEPT), table);
  }

  private static void requireMicrometres(Dataset item) throws ObjectDefect {
    String unit =
        item.items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE).stream()
            .findFirst()
            .flatMap(code -> code.text(Tags.CODE_VALUE))
            .orElse("");
    if (!unit.equals("um")) {
      throw malformed("Measurement Units of the map are \"" + unit + "\", not um");
    }
  }

  private static double limit(Dataset item, int tag, int doubleTag, boolean signed)
      throws ObjectDefect {
    OptionalDouble stored = stored(item, tag, signed);
    return stored.isPresent() ? stored.getAsDouble() : number(item, doubleTag);
  }

  private static double number(Dataset item, int tag) throws ObjectDefect {
    NumberField field = NumberField.of(item, tag);
    if (field.values().isEmpty() || !Double.isFinite(field.values().get(0))) {
      throw malformed(Tag.name(tag) + " of the mapping is " + field.words());
    }
    return field.values().get(0);
  }

  /** Returns a value that is US or SS by Pixel Representation, whichever the file called it. */
  static OptionalDouble stored(Dataset item, int tag, boolean signed) {
    List<Double> values = NumberField.of(item, tag).values();
    if (values.isEmpty()) {
      return OptionalDouble.empty();
    }
    int bits = values.get(0).intValue() & 0xffff;
    return OptionalDouble.of(signed ? (short) bits : bits);
  }

  private static ObjectDefect malformed(String detail) {
    return new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, detail);
  }
}
