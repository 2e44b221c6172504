package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.ChangeCode;
import org.isopach.dicom.derive.LayerCode;

/**
 * What the values of a map are, by the codes of its Quantity Definition (DICOM PS3.3, section
 * C.7.6.16.2.11).
 *
 * @param code the code of the first item that has one; empty when there is none
 * @param changed of a change of ours, the code of the thickness that changed; else empty
 * @param further what other items say, such as a statistic; with any, it is not the quantity of its
 *     code alone
 */
public record MapQuantity(Optional<Code> code, Optional<Code> changed, List<String> further) {
  public MapQuantity {
    Objects.requireNonNull(code, "code");
    Objects.requireNonNull(changed, "changed");
    further = List.copyOf(further);
  }

  /** Returns a quantity of one code, or of none. */
  public static MapQuantity of(Optional<Code> code) {
    return new MapQuantity(code, Optional.empty(), List.of());
  }

  /** Reads an item of a Real World Value Mapping Sequence. */
  static MapQuantity of(Dataset mapping) {
    Optional<Code> first = Optional.empty();
    Optional<Code> changed = Optional.empty();
    List<String> further = new ArrayList<>();
    for (Dataset item : mapping.items(Tags.QUANTITY_DEFINITION_SEQUENCE)) {
      Optional<Code> name = code(item, Tags.CONCEPT_NAME_CODE_SEQUENCE);
      Optional<Code> value = code(item, Tags.CONCEPT_CODE_SEQUENCE);
      boolean change = first.filter(ChangeCode.CHANGE::sameAs).isPresent();
      boolean method = name.filter(ChangeCode.DEFINITION::sameAs).isPresent();
      if (first.isEmpty() && value.isPresent() && !method) {
        first = value;
      } else if (change && changed.isEmpty() && method) {
        changed = value;
      } else {
        further.add(value.or(() -> name).map(Code::toString).orElse("an item without code"));
      }
    }
    return new MapQuantity(first, changed, further);
  }

  private static Optional<Code> code(Dataset item, int tag) {
    return item.items(tag).stream().findFirst().flatMap(Code::of);
  }

  /** Returns whether it is a change by our code. */
  public boolean change() {
    return code.filter(ChangeCode.CHANGE::sameAs).isPresent();
  }

  /**
   * Returns the layer of ours that the thickness, or the thickness that changed, is of; empty when
   * further items make it something else.
   */
  public Optional<Layer> layer() {
    return further.isEmpty()
        ? (change() ? changed : code).flatMap(LayerCode::layer)
        : Optional.empty();
  }

  /** Returns all of it in words; empty when there is nothing. */
  public String title() {
    return code.map(Code::toString).orElse("")
        + changed.map(one -> " of " + one).orElse("")
        + (further.isEmpty() ? "" : " with " + String.join(", ", further));
  }
}
