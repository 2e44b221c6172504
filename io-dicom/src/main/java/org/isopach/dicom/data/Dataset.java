package org.isopach.dicom.data;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A DICOM data set as plain values: no toolkit type, no pixel data, no file. Immutable.
 *
 * <p>Attributes are kept in the order of their unsigned tags.
 */
public final class Dataset {
  private final SortedMap<Integer, Element> elements;

  private Dataset(SortedMap<Integer, Element> elements) {
    this.elements = Collections.unmodifiableSortedMap(elements);
  }

  /** Returns a builder with nothing in it. */
  public static Builder builder() {
    return new Builder(new TreeMap<>(Integer::compareUnsigned));
  }

  /** Returns a builder that starts with this data set's attributes. */
  public Builder toBuilder() {
    return new Builder(new TreeMap<>(elements));
  }

  /** Returns all attributes in tag order. */
  public Collection<Element> elements() {
    return elements.values();
  }

  /** Returns an attribute, or empty when it is absent; present and empty is not absent. */
  public Optional<Element> element(int tag) {
    return Optional.ofNullable(elements.get(tag));
  }

  /** Returns whether the attribute is present, with or without a value. */
  public boolean has(int tag) {
    return elements.containsKey(tag);
  }

  /** Returns the first text value, or empty when absent, without a value, or not text. */
  public Optional<String> text(int tag) {
    return texts(tag).stream().findFirst();
  }

  /** Returns the text values; none when absent, without a value, or not text. */
  public List<String> texts(int tag) {
    return elements.get(tag) instanceof Element.Text text ? text.values() : List.of();
  }

  /** Returns the items of a sequence; none when absent, empty or not a sequence. */
  public List<Dataset> items(int tag) {
    return elements.get(tag) instanceof Element.Sequence sequence ? sequence.items() : List.of();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Dataset that && elements.equals(that.elements);
  }

  @Override
  public int hashCode() {
    return elements.hashCode();
  }

  @Override
  public String toString() {
    return elements.values().toString();
  }

  /** Collects attributes; a later value of a tag replaces an earlier one. */
  public static final class Builder {
    private final SortedMap<Integer, Element> elements;

    private Builder(SortedMap<Integer, Element> elements) {
      this.elements = elements;
    }

    /** Sets text values; none makes the attribute present and empty. */
    public Builder text(int tag, Vr vr, String... values) {
      return put(new Element.Text(tag, vr, Arrays.asList(values)));
    }

    /** Sets binary numbers; none makes the attribute present and empty. */
    public Builder numbers(int tag, Vr vr, double... values) {
      List<Double> list = new ArrayList<>(values.length);
      for (double value : values) {
        list.add(value);
      }
      return put(new Element.Numbers(tag, vr, list));
    }

    /** Sets the items of a sequence; none makes it present and empty. */
    public Builder items(int tag, Dataset... items) {
      return items(tag, Arrays.asList(items));
    }

    /** Sets the items of a sequence; none makes it present and empty. */
    public Builder items(int tag, List<Dataset> items) {
      return put(new Element.Sequence(tag, items));
    }

    /** Sets other bytes. */
    public Builder bytes(int tag, Vr vr, byte[] value) {
      return put(new Element.Bytes(tag, vr, ByteString.copyOf(value)));
    }

    /** Sets an attribute as it is. */
    public Builder put(Element element) {
      elements.put(element.tag(), element);
      return this;
    }

    /** Takes an attribute out. */
    public Builder remove(int tag) {
      elements.remove(tag);
      return this;
    }

    /** Returns the data set; the builder may be used on. */
    public Dataset build() {
      return new Dataset(new TreeMap<>(elements));
    }
  }
}
