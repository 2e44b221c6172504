package org.isopach.dicom.derive;

import java.math.BigDecimal;
import java.math.MathContext;

/** Numbers as decimal strings of at most 16 characters (DICOM PS3.5, VR DS). */
final class DecimalText {
  private static final int MOST_CHARACTERS = 16;

  private DecimalText() {}

  /** Returns the shortest text of a finite number, rounded only when it would be too long. */
  static String of(double value) {
    for (int digits = 17; digits > 0; digits--) {
      BigDecimal rounded = new BigDecimal(Double.toString(value)).round(new MathContext(digits));
      String plain = rounded.stripTrailingZeros().toPlainString();
      if (plain.length() <= MOST_CHARACTERS) {
        return plain;
      }
      String scientific = rounded.stripTrailingZeros().toString();
      if (scientific.length() <= MOST_CHARACTERS) {
        return scientific;
      }
    }
    throw new IllegalArgumentException("no decimal string holds " + value);
  }
}
