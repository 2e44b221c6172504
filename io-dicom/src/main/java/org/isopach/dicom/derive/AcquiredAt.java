package org.isopach.dicom.derive;

/** Date and time of a DICOM date-time, which may be shorter than a full one (PS3.5, VR DT). */
final class AcquiredAt {
  private static final String FIRST_DAY = "0101";
  private static final int DATE_LENGTH = 8;

  private AcquiredAt() {}

  /** Returns the date; the first month and day where the date-time does not name them. */
  static String date(String dateTime) {
    String local = withoutZone(dateTime);
    if (local.length() >= DATE_LENGTH) {
      return local.substring(0, DATE_LENGTH);
    }
    return local + FIRST_DAY.substring(local.length() - 4);
  }

  /** Returns the time as far as the date-time names it; midnight when it does not at all. */
  static String time(String dateTime) {
    String local = withoutZone(dateTime);
    return local.length() > DATE_LENGTH ? local.substring(DATE_LENGTH) : "000000";
  }

  /** Returns whether the text has at least a year and only the signs of a date-time. */
  static boolean readable(String dateTime) {
    return withoutZone(dateTime).matches("\\d{4}(\\d\\d){0,5}(\\.\\d{1,6})?");
  }

  private static String withoutZone(String dateTime) {
    return dateTime.strip().replaceFirst("[+-]\\d{4}$", "");
  }
}
