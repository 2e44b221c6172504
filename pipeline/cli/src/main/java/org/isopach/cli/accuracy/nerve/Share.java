package org.isopach.cli.accuracy.nerve;

import org.isopach.cli.page.Markdown;

/**
 * How many of how many.
 *
 * @param hits at most all
 * @param all how many there are
 */
record Share(long hits, long all) {
  private static final double Z = 1.959964;

  /** Returns the share, NaN of none. */
  double value() {
    return (double) hits / all;
  }

  /** Returns the lower end of Wilson's 95 % interval (JASA 1927;22:209, from memory). */
  double low() {
    return middle() - half();
  }

  /** Returns the upper end. */
  double high() {
    return middle() + half();
  }

  private double middle() {
    return (hits + Z * Z / 2) / (all + Z * Z);
  }

  private double half() {
    double spread = (double) hits * (all - hits) / all + Z * Z / 4;
    return Z * Math.sqrt(spread) / (all + Z * Z);
  }

  /** Returns all of it in words. */
  String words() {
    return hits
        + " of "
        + all
        + (all == 0
            ? ""
            : " ("
                + Markdown.percent(value(), 1)
                + ", 95 % CI "
                + Markdown.percent(low(), 1)
                + " to "
                + Markdown.percent(high(), 1)
                + ")");
  }
}
