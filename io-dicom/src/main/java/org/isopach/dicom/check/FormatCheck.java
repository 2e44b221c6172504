package org.isopach.dicom.check;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.ResolverStyle;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.isopach.dicom.check.Violation.Rule;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Vr;

/** Judges how values are written, for every attribute at every depth (DICOM PS3.5, 6.2 and 9). */
final class FormatCheck {
  private static final Pattern UID = Pattern.compile("(0|[1-9]\\d*)(\\.(0|[1-9]\\d*))+");
  private static final Pattern DECIMAL =
      Pattern.compile(" *[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)? *");
  private static final Pattern WHOLE = Pattern.compile(" *[+-]?\\d{1,11} *");
  private static final Pattern CODE = Pattern.compile("[A-Z0-9_ ]{0,16}");
  private static final Pattern TIME =
      Pattern.compile("([01]\\d|2[0-3])([0-5]\\d([0-5]\\d(\\.\\d{1,6})?|60(\\.\\d{1,6})?)?)? *");
  private static final Pattern DATE_TIME =
      Pattern.compile(
          "\\d{4}((0[1-9]|1[0-2])((0[1-9]|[12]\\d|3[01])(([01]\\d|2[0-3])([0-5]\\d"
              + "([0-6]\\d(\\.\\d{1,6})?)?)?)?)?)?([+-]\\d{4})? *");
  private static final DateTimeFormatter DATE =
      DateTimeFormatter.ofPattern("uuuuMMdd", Locale.ROOT).withResolverStyle(ResolverStyle.STRICT);

  private final Collector collector;

  FormatCheck(Collector collector) {
    this.collector = collector;
  }

  void checkAll(Dataset dataset, String outerPath) {
    for (Element element : dataset.elements()) {
      String path = Collector.path(outerPath, element.tag());
      if (element instanceof Element.Sequence sequence) {
        List<Dataset> items = sequence.items();
        for (int i = 0; i < items.size(); i++) {
          checkAll(items.get(i), Collector.item(path, i));
        }
      } else if (element instanceof Element.Text text) {
        text.values().stream().filter(v -> !v.isEmpty()).forEach(v -> check(text.vr(), v, path));
      }
    }
  }

  private void check(Vr vr, String value, String path) {
    switch (vr) {
      case UI ->
          require(
              value.length() <= 64 && UID.matcher(value).matches(),
              path,
              Rule.UID,
              "a UID of at most 64 characters",
              value);
      case DS ->
          format(
              value.length() <= 16 && DECIMAL.matcher(value).matches(),
              path,
              "a decimal of at most 16 characters",
              value);
      case IS -> format(WHOLE.matcher(value).matches(), path, "a whole number", value);
      case CS -> format(CODE.matcher(value).matches(), path, "a code string", value);
      case DA -> format(isDate(value), path, "a date YYYYMMDD", value);
      case TM -> format(TIME.matcher(value).matches(), path, "a time HHMMSS.FFFFFF", value);
      case DT -> format(DATE_TIME.matcher(value).matches(), path, "a date-time", value);
      case SH -> format(value.length() <= 16, path, "at most 16 characters", value);
      case LO -> format(value.length() <= 64, path, "at most 64 characters", value);
      case ST -> format(value.length() <= 1024, path, "at most 1024 characters", value);
      case LT -> format(value.length() <= 10240, path, "at most 10240 characters", value);
      default -> {
        // the other representations have no form that a string of Java could break
      }
    }
  }

  private static boolean isDate(String value) {
    try {
      LocalDate.parse(value.strip(), DATE);
      return true;
    } catch (DateTimeException e) {
      return false;
    }
  }

  private void format(boolean holds, String path, String expected, String actual) {
    require(holds, path, Rule.FORMAT, expected, actual);
  }

  private void require(boolean holds, String path, Rule rule, String expected, String actual) {
    if (!holds) {
      collector.violation(path, rule, expected, actual);
    }
  }
}
