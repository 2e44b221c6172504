package org.isopach.analysis.scan;

/**
 * The smallest and largest grey value that the object can store, after any inversion.
 *
 * <p>A pixel at {@link #high()} is saturated; instruments fill the margins of moved frames with it.
 *
 * @param low the smallest storable value
 * @param high the largest storable value, above {@code low}
 */
public record GreyRange(double low, double high) {
  public GreyRange {
    if (!(high > low)) {
      throw new IllegalArgumentException("high must exceed low, was " + low + " to " + high);
    }
  }
}
