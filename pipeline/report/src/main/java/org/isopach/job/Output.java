package org.isopach.job;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;

/** What a run writes beside its tables. */
public enum Output {
  /** A table of the boundaries of every scan. */
  BOUNDARIES,
  /** A picture of every map and every change. */
  PICTURES,
  /**
   * A thickness map object for every map the standard has a code for, and a registration object for
   * every two scans that were found to lie on one another; of every scan a report of its grid, its
   * boundaries as height maps, its fluid as a segmentation and the projection that visits are laid
   * on one another by.
   */
  OBJECTS,
  /** A report of every scan for people, as PDF; with objects also wrapped as one. */
  REPORTS,
  /** The numbers of every eye and visit as a FHIR transaction. */
  FHIR;

  /** What is written unless somebody says otherwise. */
  public static final Set<Output> USUAL =
      Collections.unmodifiableSet(EnumSet.of(BOUNDARIES, PICTURES, OBJECTS, REPORTS));

  /** Returns the name used on the command line and in the run record, in lower case. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }
}
