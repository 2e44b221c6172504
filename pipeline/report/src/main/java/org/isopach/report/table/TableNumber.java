package org.isopach.report.table;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Numbers of the small tables: fixed decimals, rounded half to even from the exact value. */
public final class TableNumber {
  private TableNumber() {}

  /**
   * Returns a number with a fixed count of decimals and no exponent; zero has no sign.
   *
   * @throws IllegalArgumentException when the value is NaN or infinite: neither reaches a table
   */
  public static String fixed(double value, int decimals) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("not a number for a table: " + value);
    }
    return new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString();
  }
}
