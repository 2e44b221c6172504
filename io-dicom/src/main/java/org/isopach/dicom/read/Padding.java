package org.isopach.dicom.read;

import java.util.OptionalDouble;

/**
 * The stored values that stand for no value (DICOM PS3.3, C.7.5.1.1.2), ends included.
 *
 * @param low the lowest; NaN for none
 * @param high the highest; NaN for none
 */
record Padding(double low, double high) {
  /** Returns the padding of a value and of the other end of its range, either of which may lack. */
  static Padding of(OptionalDouble value, OptionalDouble limit) {
    double one = value.orElse(Double.NaN);
    double other = value.isPresent() ? limit.orElse(one) : one;
    return new Padding(Math.min(one, other), Math.max(one, other));
  }

  /** Returns a stored value, NaN for padding. */
  double apply(double stored) {
    return stored >= low && stored <= high ? Double.NaN : stored;
  }
}
