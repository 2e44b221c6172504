package org.isopach.analysis.change;

/** Where the figures of test–retest noise come from, the most trusted first. */
public enum NoiseSource {
  /** Repeated scans that the user named. */
  GIVEN_REPEATS("given-repeats"),
  /** Scans of an eye on one day in one pattern, found among the scans themselves. */
  SAME_DAY_REPEATS("same-day-repeats"),
  /** A published repeatability study. */
  PUBLISHED("published");

  private final String code;

  NoiseSource(String code) {
    this.code = code;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }
}
