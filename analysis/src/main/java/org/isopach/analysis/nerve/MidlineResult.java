package org.isopach.analysis.nerve;

/**
 * What is known of the difference across the horizontal midline: a number, or why there is none.
 */
public sealed interface MidlineResult permits MidlineDifference, MidlineMissing {
  /** Returns the share of what was to be compared that could be, from 0 to 1. */
  double coveredFraction();
}
