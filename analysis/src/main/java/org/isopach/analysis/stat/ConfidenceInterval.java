package org.isopach.analysis.stat;

/**
 * A two-sided confidence interval, in the unit of what it is about.
 *
 * @param lower lower end, never NaN, at most {@code upper}
 * @param upper upper end, never NaN
 * @param level share of intervals made this way that hold the true value, between 0 and 1
 */
public record ConfidenceInterval(double lower, double upper, double level) {
  /** The usual level, 95 %. */
  public static final double USUAL_LEVEL = 0.95;

  public ConfidenceInterval {
    if (!(lower <= upper)) {
      throw new IllegalArgumentException(
          "the lower end must not lie above the upper one: " + lower + ", " + upper);
    }
    requireLevel(level);
  }

  /** Returns whether the value lies inside or on an end. */
  public boolean contains(double value) {
    return lower <= value && value <= upper;
  }

  /**
   * Returns the interval of a multiple of the quantity.
   *
   * @param factor not negative
   */
  public ConfidenceInterval times(double factor) {
    return new ConfidenceInterval(lower * factor, upper * factor, level);
  }

  static ConfidenceInterval around(double middle, double halfWidth, double level) {
    return new ConfidenceInterval(middle - halfWidth, middle + halfWidth, level);
  }

  static void requireLevel(double level) {
    if (!(level > 0 && level < 1)) {
      throw new IllegalArgumentException("a level lies between 0 and 1, was " + level);
    }
  }
}
