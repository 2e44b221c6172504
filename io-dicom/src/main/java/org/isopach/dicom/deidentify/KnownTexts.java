package org.isopach.dicom.deidentify;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.isopach.dicom.check.StandardTerms;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Vr;

/**
 * The texts of one object that name people, places and cases: whole values and the words of names,
 * of four characters or more. They are looked for in whatever is kept.
 */
final class KnownTexts {
  private static final int SHORTEST = 4;

  /** Shorter texts turn up in pixels by chance; of 64 bits they do not. */
  private static final int SHORTEST_IN_PIXELS = 8;

  private static final int SHORTEST_NUMBER = 6;
  private static final int BIRTH_DATE = 0x00100030;
  private static final Set<Vr> IDENTIFYING = Set.of(Vr.PN, Vr.LO, Vr.SH, Vr.UI, Vr.AE);

  private static final Set<String> TERMS = StandardTerms.all();

  private final Set<String> texts = new TreeSet<>();

  private KnownTexts() {}

  /** Collects them from everything the table takes out under some options. */
  static KnownTexts of(Dataset data, ActionTable table, Options options) {
    KnownTexts known = new KnownTexts();
    known.collect(data, table, options);
    return known;
  }

  private void collect(Dataset data, ActionTable table, Options options) {
    for (Element element : data.elements()) {
      if (element instanceof Element.Sequence sequence) {
        sequence.items().forEach(item -> collect(item, table, options));
      } else if (element instanceof Element.Text text && identifying(text, table, options)) {
        text.values().forEach(value -> add(value, text.vr()));
      }
    }
  }

  private static boolean identifying(Element.Text text, ActionTable table, Options options) {
    if (text.vr() == Vr.PN || text.tag() == BIRTH_DATE) {
      return true;
    }
    return IDENTIFYING.contains(text.vr())
        && table.row(text.tag()).filter(row -> !row.retained(options)).isPresent();
  }

  private void add(String value, Vr vr) {
    remember(value);
    if (vr == Vr.PN) {
      List.of(value.split("[\\^= ]+", -1)).forEach(this::remember);
    }
  }

  private void remember(String text) {
    boolean ours = text.strip().equals(DatasetCleaner.DUMMY);
    if (text.strip().length() >= SHORTEST && !ours) {
      texts.add(text.strip().toLowerCase(Locale.ROOT));
    }
  }

  /** Returns whether a text holds one of them, in capitals or not. */
  boolean in(String text) {
    String lower = text.toLowerCase(Locale.ROOT);
    return texts.stream().anyMatch(lower::contains);
  }

  /** Returns whether a code holds a longer one, or a shorter one as a word of its own. */
  boolean inCode(String code) {
    String lower = code.toLowerCase(Locale.ROOT);
    return texts.contains(lower)
        || Arrays.stream(lower.split("[^\\p{L}\\p{N}]+", -1)).anyMatch(texts::contains)
        || texts.stream().anyMatch(t -> t.length() >= SHORTEST_IN_PIXELS && lower.contains(t));
  }

  /**
   * Returns whether a term (CS) holds one of them; of the standard's own terms whether it or one of
   * its words is one, or it holds a longer one.
   */
  boolean isTerm(String term) {
    if (!TERMS.contains(term.strip())) {
      return in(term);
    }
    return inCode(term);
  }

  /** Returns whether a number as text (DS, IS) is one of them as a whole and not a short one. */
  boolean isNumber(String number) {
    return number.length() >= SHORTEST_NUMBER && texts.contains(number.toLowerCase(Locale.ROOT));
  }

  /** Returns whether a date or time holds one of them that is not short. */
  boolean inTime(String time) {
    return texts.stream().anyMatch(t -> t.length() >= SHORTEST_NUMBER && time.contains(t));
  }

  /** Returns whether bytes hold one of them as text. */
  boolean in(byte[] bytes) {
    TextSearch search = new TextSearch(texts);
    search.feed(bytes, bytes.length);
    return search.found();
  }

  /** Returns a search for the longer ones in a stream of pixel data. */
  TextSearch inPixels() {
    return new TextSearch(
        texts.stream().filter(text -> text.length() >= SHORTEST_IN_PIXELS).toList());
  }
}
