package org.isopach.dicom.read;

import java.util.Locale;

/** Numbers as messages show them. */
final class Rounded {
  private Rounded() {}

  /** Returns a number with four significant digits. */
  static String of(double value) {
    return String.format(Locale.ROOT, "%.4g", value);
  }
}
