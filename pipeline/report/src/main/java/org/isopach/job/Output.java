package org.isopach.job;

/** What a run writes beside its tables. */
public enum Output {
  /** A table of the boundaries of every scan. */
  BOUNDARIES,
  /** A picture of every map and every change. */
  PICTURES,
  /** A thickness map object for every map the standard has a code for. */
  OBJECTS
}
