package org.isopach.dicom.read;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * What stored values of a parametric map mean in µm: the first Real World Value Mapping whose unit
 * is a length (DICOM PS3.3, section C.7.6.16.2.11). Lengths may be negative. Immutable.
 */
final class RealWorldValues {
  private static final Map<String, Double> MICROMETRES = Map.of("um", 1.0, "mm", 1000.0);
  private static final String UCUM = "UCUM";

  private final Dataset item;
  private final double factor;
  private final double first;
  private final double last;
  private final List<Double> table;
  private final double slope;
  private final double intercept;

  private RealWorldValues(Dataset item, double factor, boolean signed) throws ObjectDefect {
    this.item = item;
    this.factor = factor;
    this.first =
        limit(
            Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_FIRST_VALUE_MAPPED,
            Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED,
            signed,
            Double.NEGATIVE_INFINITY);
    this.last =
        limit(
            Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_LAST_VALUE_MAPPED,
            Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED,
            signed,
            Double.POSITIVE_INFINITY);
    this.table = NumberField.of(item, Tags.REAL_WORLD_VALUE_LUT_DATA).values();
    boolean line = table.isEmpty();
    if (!line && !(first == Math.rint(first) && table.size() >= last - first + 1)) {
      throw bad("Real World Value LUT Data (0040,9212) does not cover the values it is for");
    }
    this.slope = line ? number(Tags.REAL_WORLD_VALUE_SLOPE) : 0;
    this.intercept = line ? number(Tags.REAL_WORLD_VALUE_INTERCEPT) : 0;
  }

  /**
   * Reads the mappings of a frame.
   *
   * @param signed whether stored values are integers below 0 as well
   * @throws ObjectDefect MALFORMED_ATTRIBUTE when none is of a length, or the one that is has no
   *     usable numbers
   */
  static RealWorldValues of(List<Dataset> mappings, boolean signed) throws ObjectDefect {
    StringBuilder units = new StringBuilder();
    for (Dataset item : mappings) {
      Optional<Code> unit =
          item.items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE).stream().findFirst().flatMap(Code::of);
      Double factor =
          unit.filter(code -> code.scheme().equals(UCUM))
              .map(code -> MICROMETRES.get(code.value()))
              .orElse(null);
      if (factor != null) {
        return new RealWorldValues(item, factor, signed);
      }
      units.append(units.isEmpty() ? "" : ", ").append(unit.map(Code::value).orElse("none"));
    }
    throw bad(
        "no Real World Value Mapping is in um or mm, units: "
            + (mappings.isEmpty() ? "none" : units));
  }

  /** Returns µm of a stored value; NaN outside the values that the mapping is for. */
  double micrometres(double stored) {
    if (!(stored >= first && stored <= last)) {
      return Double.NaN;
    }
    return factor
        * (table.isEmpty() ? slope * stored + intercept : table.get((int) (stored - first)));
  }

  /** Returns what the mapping says its values are. */
  MapQuantity quantity() {
    return MapQuantity.of(item);
  }

  /** Returns what the mapping says of itself, or nothing. */
  String words() {
    return item.text(Tags.LUT_EXPLANATION).or(() -> item.text(Tags.LUT_LABEL)).orElse("");
  }

  private double limit(int doubleTag, int tag, boolean signed, double otherwise)
      throws ObjectDefect {
    if (item.has(doubleTag)) {
      return number(doubleTag);
    }
    OptionalDouble stored = ThicknessMapping.stored(item, tag, signed);
    return stored.orElse(otherwise);
  }

  private double number(int tag) throws ObjectDefect {
    NumberField field = NumberField.of(item, tag);
    if (field.values().size() != 1 || !Double.isFinite(field.values().get(0))) {
      throw bad(Tag.name(tag) + " of the mapping is " + field.words());
    }
    return field.values().get(0);
  }

  private static ObjectDefect bad(String detail) {
    return new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, detail);
  }
}
