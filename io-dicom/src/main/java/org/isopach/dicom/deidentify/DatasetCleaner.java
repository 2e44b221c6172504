package org.isopach.dicom.deidentify;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.isopach.dicom.Caution;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Vr;

/** Applies the table and, to what it does not name, rules by value representation; every level. */
final class DatasetCleaner {
  static final String DUMMY = "REMOVED";

  /** Codes, maker, model, version, units, stacks: text without which nothing can be read. */
  private static final Set<Integer> KEPT_TEXT =
      Set.of(
          0x00080100,
          0x00080102,
          0x00080103,
          0x00080104,
          0x00080119,
          0x00080120,
          0x00080070,
          0x00081090,
          0x00181020,
          0x00281054,
          0x00209056,
          0x00409210);

  /** Of these the codes, schemes and units: a short id of digits turns up in them by chance. */
  private static final Set<Integer> CODES =
      Set.of(0x00080100, 0x00080102, 0x00080103, 0x00080119, 0x00080120, 0x00281054);

  private static final Set<Vr> FREE_TEXT =
      Set.of(Vr.LO, Vr.SH, Vr.LT, Vr.ST, Vr.UT, Vr.UC, Vr.UR, Vr.PN, Vr.AE);
  private static final Set<Integer> CODE_VERSIONS = Set.of(0x00080106, 0x00080107);
  private static final int PATIENT_NAME = 0x00100010;
  private static final Set<Integer> PATIENT_IDS = Set.of(PATIENT_NAME, 0x00100020, 0x00120040);
  private static final int TIMEZONE = 0x00080201;

  /** Sequences that D would replace by a dummy and that are cleaned item by item instead. */
  private static final Set<Integer> CLEANED_INSIDE = Set.of(0x0040A730, 0x0040A073);

  /** No item of the objects we copy has pixels; those in one would be a picture nobody judged. */
  private static final Set<Integer> PIXELS = Set.of(0x7FE00008, 0x7FE00009, 0x7FE00010);

  private final ActionTable table;
  private final Options options;
  private final Pseudonyms names;
  private final StandardUids standard;
  private final KnownTexts known;
  private final String patient;
  private final Tally tally;

  DatasetCleaner(
      ActionTable table,
      Options options,
      Pseudonyms names,
      StandardUids standard,
      KnownTexts known,
      String patient,
      Tally tally) {
    this.table = table;
    this.options = options;
    this.names = names;
    this.standard = standard;
    this.known = known;
    this.patient = patient;
    this.tally = tally;
  }

  Dataset clean(Dataset data) {
    return level(data, true);
  }

  private Dataset level(Dataset data, boolean top) {
    Dataset.Builder out = Dataset.builder();
    for (Element element : data.elements()) {
      boolean icon = !top && PIXELS.contains(element.tag());
      (icon ? removed(element) : cleaned(element)).ifPresent(out::put);
    }
    return out.build();
  }

  private Optional<Element> cleaned(Element element) {
    int group = element.tag() >>> 16;
    boolean overlay = (group >= 0x6000 && group <= 0x60ff) || (group >= 0x5000 && group <= 0x50ff);
    if (group % 2 == 1 || overlay || element.vr() == Vr.UN) {
      return removed(element);
    }
    if (group == 2 || (element.tag() & 0xffff) == 0) {
      return Optional.empty();
    }
    return table
        .row(element.tag())
        .map(row -> listed(element, row))
        .orElseGet(() -> unlisted(element));
  }

  private Optional<Element> listed(Element element, ActionTable.Row row) {
    if (row.retained(options)) {
      return element.vr() == Vr.UI ? uid(element, names::uid) : kept(element);
    }
    if (CLEANED_INSIDE.contains(element.tag()) && element instanceof Element.Sequence sequence) {
      return done(element, Action.CLEANED, inside(sequence));
    }
    if (isCaution(element)) {
      return kept(element);
    }
    if (PATIENT_IDS.contains(element.tag())) {
      return done(element, Action.PSEUDONYM, text(element, names.patient(patient)));
    }
    if (row.basic().startsWith("U")) {
      return uid(element, names::uid);
    }
    if (row.basic().endsWith("U*")) {
      return unlisted(element);
    }
    if (options.shiftDates() && row.dated()) {
      return dated(element, row);
    }
    return basic(element, row.basic());
  }

  private Optional<Element> basic(Element element, String code) {
    boolean sequence = element instanceof Element.Sequence;
    if (code.equals("X") || (sequence && (code.equals("D") || code.equals("X/D")))) {
      return removed(element);
    }
    if (code.endsWith("Z") || sequence || element.multiplicity() == 0) {
      return done(element, Action.EMPTIED, empty(element));
    }
    return dummy(element);
  }

  private Optional<Element> dated(Element element, ActionTable.Row row) {
    boolean asItIs = CODE_VERSIONS.contains(element.tag()) || element.tag() == TIMEZONE;
    if (asItIs || element.vr() == Vr.TM) {
      return kept(element);
    }
    boolean date = element.vr() == Vr.DA || element.vr() == Vr.DT;
    return date ? moved((Element.Text) element) : basic(element, row.basic());
  }

  private Optional<Element> unlisted(Element element) {
    return switch (element.vr()) {
      case SQ -> Optional.of(inside((Element.Sequence) element));
      case UI -> uid(element, one -> standard.registered(one) ? one : names.uid(one));
      case DA, DT -> options.shiftDates() ? moved((Element.Text) element) : dummy(element);
      case TM -> options.shiftDates() ? kept(element) : dummy(element);
      case AS -> removed(element);
      case OB, OD, OF, OL, OV, OW -> bytes((Element.Bytes) element);
      default ->
          FREE_TEXT.contains(element.vr())
                  && !KEPT_TEXT.contains(element.tag())
                  && !isCaution(element)
              ? dummy(element)
              : kept(element);
    };
  }

  private Element inside(Element.Sequence sequence) {
    List<Dataset> items = new ArrayList<>();
    sequence.items().forEach(item -> items.add(level(item, false)));
    return new Element.Sequence(sequence.tag(), items);
  }

  /** Palettes, lookup tables and float pixels stay; other bytes could be anything. */
  private Optional<Element> bytes(Element.Bytes bytes) {
    int group = bytes.tag() >>> 16;
    boolean picture = group == 0x0028 || group == 0x7fe0 || group == 0x0066 || group == 0x0022;
    boolean clear = picture && !known.in(bytes.value().toByteArray());
    return clear ? Optional.of(bytes) : removed(bytes);
  }

  private Optional<Element> uid(Element element, UnaryOperator<String> made) {
    if (!(element instanceof Element.Text uids)) {
      return removed(element);
    }
    List<String> values = uids.values().stream().map(made).toList();
    Element renamed = new Element.Text(uids.tag(), uids.vr(), values);
    return values.equals(uids.values())
        ? Optional.of(renamed)
        : done(element, Action.NEW_UID, renamed);
  }

  private Optional<Element> moved(Element.Text dates) {
    List<String> values = new ArrayList<>();
    for (String value : dates.values()) {
      if (ValueForms.fits(dates.vr(), value)) {
        Pseudonyms.moved(value, names.days(patient))
            .filter(moved -> !known.inTime(moved))
            .ifPresent(values::add);
      }
    }
    if (values.size() < dates.values().size()) {
      return done(dates, Action.EMPTIED, empty(dates));
    }
    return done(dates, Action.DATE_SHIFTED, new Element.Text(dates.tag(), dates.vr(), values));
  }

  private Optional<Element> kept(Element element) {
    if (element instanceof Element.Sequence sequence) {
      return Optional.of(inside(sequence));
    }
    if (element instanceof Element.Text text && misfit(text)) {
      return element.tag() == TIMEZONE
          ? removed(element)
          : done(element, Action.EMPTIED, empty(element));
    }
    if (element instanceof Element.Text text
        && text.values().stream().anyMatch(value -> tells(text, value))) {
      String dummy = dummyOf(text.vr());
      List<String> values =
          text.values().stream().map(one -> tells(text, one) ? dummy : one).toList();
      return done(element, Action.SCRUBBED, new Element.Text(text.tag(), text.vr(), values));
    }
    if (table.row(element.tag()).isPresent()) {
      tally.count(element.tag(), Action.KEPT);
    }
    return Optional.of(element);
  }

  /** Returns whether an element that is better empty than a dummy has a value of another form. */
  private static boolean misfit(Element.Text text) {
    if (text.tag() == TIMEZONE) {
      return !text.values().stream().allMatch(ValueForms::isTimezone);
    }
    boolean number = text.vr() == Vr.DS || text.vr() == Vr.IS;
    return number && !text.values().stream().allMatch(one -> ValueForms.fits(text.vr(), one));
  }

  private boolean tells(Element.Text text, String value) {
    Vr vr = text.vr();
    if (!ValueForms.fits(vr, value)) {
      return true;
    }
    return switch (vr) {
      case CS -> known.isTerm(value);
      case DS, IS -> known.isNumber(value);
      case DA, DT, TM -> known.inTime(value);
      case AT, AS -> false;
      default ->
          CODES.contains(text.tag())
              ? known.inCode(value)
              : text.tag() != TIMEZONE && known.in(value);
    };
  }

  private static boolean isCaution(Element element) {
    return element instanceof Element.Text text
        && text.values().size() == 1
        && Caution.ALL.contains(text.values().get(0));
  }

  private Optional<Element> dummy(Element element) {
    if (!(element instanceof Element.Text)) {
      return removed(element);
    }
    if (element.multiplicity() == 0) {
      return Optional.of(element);
    }
    return done(element, Action.REPLACED, text(element, dummyOf(element.vr())));
  }

  private static String dummyOf(Vr vr) {
    return switch (vr) {
      case DA -> "19000101";
      case DT -> "19000101000000";
      case TM -> "000000";
      case DS, IS -> "0";
      case AS -> "000Y";
      default -> DUMMY;
    };
  }

  private Optional<Element> removed(Element element) {
    tally.count(element.tag(), Action.REMOVED);
    return Optional.empty();
  }

  private Optional<Element> done(Element element, Action action, Element made) {
    tally.count(element.tag(), action);
    return Optional.of(made);
  }

  private static Element text(Element like, String value) {
    return new Element.Text(like.tag(), like.vr(), List.of(value));
  }

  private static Element empty(Element element) {
    return element instanceof Element.Sequence
        ? new Element.Sequence(element.tag(), List.of())
        : new Element.Text(element.tag(), element.vr(), List.of());
  }
}
