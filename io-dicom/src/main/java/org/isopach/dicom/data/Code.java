package org.isopach.dicom.data;

import java.util.Objects;
import java.util.Optional;

/**
 * A coded concept, the basic form of the Code Sequence Macro (DICOM PS3.3, table 8.8-1).
 *
 * @param value Code Value
 * @param scheme Coding Scheme Designator
 * @param meaning Code Meaning; not part of what the code says, see {@link #sameAs}
 */
public record Code(String value, String scheme, String meaning) {
  public Code {
    Objects.requireNonNull(value, "value");
    Objects.requireNonNull(scheme, "scheme");
    Objects.requireNonNull(meaning, "meaning");
  }

  /** Returns the code of a sequence item, or empty when value or scheme is missing. */
  public static Optional<Code> of(Dataset item) {
    Optional<String> value = item.text(Tags.CODE_VALUE);
    Optional<String> scheme = item.text(Tags.CODING_SCHEME_DESIGNATOR);
    if (value.isEmpty() || scheme.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Code(value.get(), scheme.get(), item.text(Tags.CODE_MEANING).orElse("")));
  }

  /** Returns whether another code is the same concept, whatever its meaning's wording. */
  public boolean sameAs(Code other) {
    return value.equals(other.value) && scheme.equals(other.scheme);
  }

  /** Returns the code as a sequence item. */
  public Dataset toItem() {
    return Dataset.builder()
        .text(Tags.CODE_VALUE, Vr.SH, value)
        .text(Tags.CODING_SCHEME_DESIGNATOR, Vr.SH, scheme)
        .text(Tags.CODE_MEANING, Vr.LO, meaning)
        .build();
  }

  @Override
  public String toString() {
    return "(" + value + ", " + scheme + ", \"" + meaning + "\")";
  }
}
