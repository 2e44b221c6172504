package org.isopach.dicom.deidentify;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Vr;

/**
 * The texts of one object that name people, places and cases: whole values and the words of names,
 * of four characters or more. They are looked for in whatever is kept.
 */
final class KnownTexts {
  private static final int SHORTEST = 4;
  private static final Set<Vr> IDENTIFYING = Set.of(Vr.PN, Vr.LO, Vr.SH, Vr.UI, Vr.AE);
  private static final String STANDARD_ROOT = "1.2.840.10008.";

  private final Set<String> texts = new TreeSet<>();

  private KnownTexts() {}

  static KnownTexts of(Dataset data, ActionTable table, Set<Integer> kept) {
    KnownTexts known = new KnownTexts();
    known.collect(data, table, kept);
    return known;
  }

  private void collect(Dataset data, ActionTable table, Set<Integer> kept) {
    for (Element element : data.elements()) {
      if (element instanceof Element.Sequence sequence) {
        sequence.items().forEach(item -> collect(item, table, kept));
      } else if (element instanceof Element.Text text
          && IDENTIFYING.contains(text.vr())
          && !kept.contains(text.tag())
          && (text.vr() == Vr.PN || table.row(text.tag()).isPresent())) {
        text.values().forEach(value -> add(value, text.vr()));
      }
    }
  }

  private void add(String value, Vr vr) {
    if (vr == Vr.UI && value.startsWith(STANDARD_ROOT)) {
      return;
    }
    remember(value);
    if (vr == Vr.PN) {
      List.of(value.split("[\\^= ]+", -1)).forEach(this::remember);
    }
  }

  private void remember(String text) {
    if (text.strip().length() >= SHORTEST) {
      texts.add(text.strip().toLowerCase(Locale.ROOT));
    }
  }

  /** Returns whether a text holds one of them, in capitals or not. */
  boolean in(String text) {
    String lower = text.toLowerCase(Locale.ROOT);
    return texts.stream().anyMatch(lower::contains);
  }

  /** Returns whether bytes hold one of them as text. */
  boolean in(byte[] bytes) {
    Charset bytewise = StandardCharsets.ISO_8859_1;
    return in(new String(bytes, bytewise));
  }
}
