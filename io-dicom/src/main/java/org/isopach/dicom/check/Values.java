package org.isopach.dicom.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;

/** Values of elements as text, whole numbers without a fraction. */
final class Values {
  private Values() {}

  static List<String> of(Element element) {
    if (element instanceof Element.Text text) {
      return text.values();
    }
    List<String> values = new ArrayList<>();
    if (element instanceof Element.Numbers numbers) {
      for (double value : numbers.values()) {
        boolean whole = value == Math.rint(value) && Math.abs(value) < 1L << 53;
        values.add(whole ? Long.toString((long) value) : Double.toString(value));
      }
    }
    return values;
  }

  /** Returns the value at a 1-based position, or empty when there is none. */
  static Optional<String> at(Optional<Element> element, int position) {
    List<String> values = element.map(Values::of).orElse(List.of());
    return position <= values.size() ? Optional.of(values.get(position - 1)) : Optional.empty();
  }

  /** Returns the first value as a whole number, or empty when it is absent or none. */
  static Optional<Long> whole(Dataset dataset, int tag) {
    return at(dataset.element(tag), 1)
        .map(String::strip)
        .filter(v -> v.matches("\\d{1,18}"))
        .map(Long::valueOf);
  }
}
