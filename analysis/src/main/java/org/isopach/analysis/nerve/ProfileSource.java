package org.isopach.analysis.nerve;

/** What a profile was read from. */
public enum ProfileSource {
  /** A scan along a circle. */
  CIRCLE_SCAN("circle-scan"),
  /** A circle laid into the map of a volume. */
  RESAMPLED("resampled");

  private final String code;

  ProfileSource(String code) {
    this.code = code;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }
}
