package org.isopach.dicom.deidentify;

import java.util.regex.Pattern;
import org.isopach.dicom.data.Vr;

/**
 * The forms of values (PS3.5, table 6.2-1, 2024b). What has another form can be text that nobody
 * expects where it stands.
 */
final class ValueForms {
  private static final String DAY = "(0[1-9]|[12]\\d|3[01])";
  private static final String MONTH = "(0[1-9]|1[0-2])";
  private static final String HOUR = "([01]\\d|2[0-3])";
  private static final String SECOND = "([0-5]\\d|60)(\\.\\d{1,6})?";
  private static final String ZONE = "[+-]\\d{4}";

  private static final Pattern TERM = Pattern.compile("[A-Z0-9_ ]{1,16}");
  private static final Pattern DECIMAL =
      Pattern.compile(" *[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)? *");
  private static final Pattern WHOLE = Pattern.compile(" *[+-]?\\d{1,11} *");
  private static final Pattern AGE = Pattern.compile("\\d{3}[DWMY]");

  /** The second form, with dots, is the older one that readers must still take. */
  private static final Pattern DATE =
      Pattern.compile("\\d{4}(" + MONTH + DAY + "|\\." + MONTH + "\\." + DAY + ")");

  /** With colons as in the older form. */
  private static final Pattern TIME =
      Pattern.compile(
          HOUR + "([0-5]\\d(" + SECOND + ")?)?|" + HOUR + ":[0-5]\\d(:" + SECOND + ")?");

  private static final Pattern DATE_TIME =
      Pattern.compile(
          "\\d{4}("
              + MONTH
              + "("
              + DAY
              + "("
              + HOUR
              + "([0-5]\\d("
              + SECOND
              + ")?)?)?)?)?"
              + ("(" + ZONE + ")?"));

  private static final Pattern TIMEZONE = Pattern.compile(ZONE);

  /** The standard allows 16; longer ones are met and are numbers all the same. */
  private static final int MOST_OF_DECIMAL = 32;

  private ValueForms() {}

  /** Returns whether a value is empty or has the form of its representation; texts have none. */
  static boolean fits(Vr vr, String value) {
    return value.isEmpty()
        || switch (vr) {
          case CS -> TERM.matcher(value).matches();
          case DS -> value.length() <= MOST_OF_DECIMAL && DECIMAL.matcher(value).matches();
          case IS -> WHOLE.matcher(value).matches();
          case AS -> AGE.matcher(value).matches();
          case DA -> DATE.matcher(value).matches();
          case TM -> TIME.matcher(value).matches();
          case DT -> DATE_TIME.matcher(value).matches();
          default -> true;
        };
  }

  /** Returns whether a text is an offset from UTC (PS3.3, C.12.1.1.8). */
  static boolean isTimezone(String value) {
    return TIMEZONE.matcher(value.strip()).matches();
  }
}
