package org.isopach.report.pdf;

/**
 * How letters look.
 *
 * @param size in points
 * @param bold whether heavy
 * @param colour {@code 0xrrggbb}
 */
record Style(float size, boolean bold, int colour) {
  static final int DARK = 0x1E2A33;
  static final int SOFT = 0x4A5761;
  static final int RULE = 0xB9BEBB;

  static final Style TITLE = new Style(20, true, DARK);
  static final Style HEADING = new Style(12.5f, true, DARK);
  static final Style TEXT = new Style(8.5f, false, DARK);
  static final Style STRONG = new Style(8.5f, true, DARK);
  static final Style LABEL = new Style(7.5f, false, SOFT);
  static final Style SMALL = new Style(7, false, SOFT);
  static final Style SMALL_STRONG = new Style(8, true, DARK);

  /** Returns the distance from one line to the next in points. */
  double leading() {
    return size * 1.35;
  }
}
