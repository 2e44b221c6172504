package org.isopach.job.watch;

import java.util.Locale;

/** What is run on what arrives. */
public enum WatchJob {
  /** Every scan of a study, as {@code isopach measure} does. */
  MEASURE,
  /** The optic nerve in every scan of a study, as {@code isopach nerve} does. */
  NERVE,
  /** All known visits of a patient against the first one, as {@code isopach compare} does. */
  COMPARE;

  /** Returns the name used on the command line and for the folder of its results. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }
}
