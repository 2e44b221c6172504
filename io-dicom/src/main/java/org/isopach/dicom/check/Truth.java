package org.isopach.dicom.check;

/** The outcome of a condition; unknown when the data set alone cannot tell. */
enum Truth {
  FALSE,
  UNKNOWN,
  TRUE;

  static Truth of(boolean holds) {
    return holds ? TRUE : FALSE;
  }

  Truth and(Truth other) {
    return compareTo(other) < 0 ? this : other;
  }

  Truth or(Truth other) {
    return compareTo(other) > 0 ? this : other;
  }
}
