package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;

/**
 * What an attribute that should hold numbers says: nothing because it is missing, nothing because
 * it is empty, nonsense, or numbers. The four are never mixed up.
 */
public sealed interface NumberField {
  /** The attribute is absent. */
  record Missing() implements NumberField {}

  /** The attribute is present without a value. */
  record Empty() implements NumberField {}

  /** The attribute holds something that is not a number; {@code text} is what it holds. */
  record Malformed(String text) implements NumberField {}

  /** The attribute's numbers, at least one; a binary number may be NaN or infinite. */
  record Values(List<Double> values) implements NumberField {
    public Values {
      values = List.copyOf(values);
    }
  }

  /** Decimal and integer strings by DICOM PS3.5, table 6.2-1. */
  Pattern DECIMAL = Pattern.compile("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?");

  /** Returns what an attribute says. */
  static NumberField of(Dataset dataset, int tag) {
    Element element = dataset.element(tag).orElse(null);
    if (element == null) {
      return new Missing();
    }
    if (element.multiplicity() == 0) {
      return new Empty();
    }
    if (element instanceof Element.Numbers numbers) {
      return new Values(numbers.values());
    }
    return element instanceof Element.Text text
        ? ofTexts(text.values())
        : new Malformed(element.vr() + " value");
  }

  private static NumberField ofTexts(List<String> texts) {
    List<Double> values = new ArrayList<>(texts.size());
    for (String text : texts) {
      if (!DECIMAL.matcher(text).matches()) {
        return new Malformed(String.join("\\", texts));
      }
      values.add(Double.parseDouble(text));
    }
    return new Values(values);
  }

  /** Returns the numbers, or none. */
  default List<Double> values() {
    return List.of();
  }

  /** Returns what the attribute says in words for a message. */
  default String words() {
    if (this instanceof Missing) {
      return "missing";
    }
    if (this instanceof Empty) {
      return "empty";
    }
    return this instanceof Malformed malformed ? "\"" + malformed.text() + "\"" : "" + values();
  }
}
