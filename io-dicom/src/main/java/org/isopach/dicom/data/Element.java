package org.isopach.dicom.data;

import java.util.List;
import java.util.Objects;

/** One attribute with its values, free of any toolkit. Immutable. */
public sealed interface Element {
  /** Returns the tag, {@code 0xggggeeee}. */
  int tag();

  /** Returns the value representation. */
  Vr vr();

  /** Returns the number of values or items; 0 for an attribute that is present and empty. */
  int multiplicity();

  /**
   * Values kept as text, as they stand in the file without padding: all string representations, and
   * AT as eight hexadecimal digits.
   */
  record Text(int tag, Vr vr, List<String> values) implements Element {
    public Text {
      Objects.requireNonNull(vr, "vr");
      values = List.copyOf(values);
    }

    @Override
    public int multiplicity() {
      return values.size();
    }
  }

  /** Binary numbers: FL, FD, SL, SS, UL, US, SV, UV. NaN and infinities stay as they are. */
  record Numbers(int tag, Vr vr, List<Double> values) implements Element {
    public Numbers {
      Objects.requireNonNull(vr, "vr");
      values = List.copyOf(values);
    }

    @Override
    public int multiplicity() {
      return values.size();
    }
  }

  /** A sequence of items. */
  record Sequence(int tag, List<Dataset> items) implements Element {
    public Sequence {
      items = List.copyOf(items);
    }

    @Override
    public Vr vr() {
      return Vr.SQ;
    }

    @Override
    public int multiplicity() {
      return items.size();
    }
  }

  /** Other bytes: lookup tables, unknown representations; little endian words. Never pixel data. */
  record Bytes(int tag, Vr vr, ByteString value) implements Element {
    public Bytes {
      Objects.requireNonNull(vr, "vr");
      Objects.requireNonNull(value, "value");
    }

    @Override
    public int multiplicity() {
      return value.length() == 0 ? 0 : 1;
    }
  }
}
