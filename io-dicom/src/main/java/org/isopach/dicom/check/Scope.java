package org.isopach.dicom.check;

import java.util.List;
import java.util.Optional;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;

/**
 * Where a rule is applied: an item and what encloses it. A tag is looked up from the inside out.
 *
 * @param here the data set or item at hand
 * @param outer the enclosing scope, innermost first; empty at the top
 * @param pixels what is known of the pixel data
 */
record Scope(Dataset here, Optional<Scope> outer, PixelContent pixels) {

  static Scope top(Dataset dataset, PixelContent pixels) {
    return new Scope(dataset, Optional.empty(), pixels);
  }

  Scope inside(Dataset item) {
    return new Scope(item, Optional.of(this), pixels);
  }

  /** Returns whether the attribute is present here, pixel data included. */
  boolean hasHere(int tag) {
    return here.has(tag) || (tag == pixels.tag() && outer.isEmpty() && pixels.present());
  }

  boolean has(int tag) {
    return hasHere(tag) || outer.map(o -> o.has(tag)).orElse(false);
  }

  Optional<Element> find(int tag) {
    Optional<Element> found = here.element(tag);
    return found.isPresent() || outer.isEmpty() ? found : outer.get().find(tag);
  }

  /** Returns whether the attribute is anywhere in the whole object, at any depth. */
  boolean anywhere(int tag) {
    return outer.map(o -> o.anywhere(tag)).orElseGet(() -> within(here, tag));
  }

  /** Returns whether any text of the whole object has characters beyond ASCII. */
  boolean nonAscii() {
    return outer.map(Scope::nonAscii).orElseGet(() -> nonAscii(here));
  }

  private static boolean within(Dataset dataset, int tag) {
    return dataset.has(tag)
        || dataset.elements().stream()
            .flatMap(e -> itemsOf(e).stream())
            .anyMatch(item -> within(item, tag));
  }

  private static boolean nonAscii(Dataset dataset) {
    for (Element element : dataset.elements()) {
      if (element instanceof Element.Text text
          && text.values().stream().anyMatch(v -> v.chars().anyMatch(c -> c > 126))) {
        return true;
      }
      if (itemsOf(element).stream().anyMatch(Scope::nonAscii)) {
        return true;
      }
    }
    return false;
  }

  private static List<Dataset> itemsOf(Element element) {
    return element instanceof Element.Sequence sequence ? sequence.items() : List.of();
  }
}
