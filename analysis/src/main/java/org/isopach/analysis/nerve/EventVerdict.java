package org.isopach.analysis.nerve;

/** What a change between two visits says of structure. It names no disease and no cause. */
public enum EventVerdict {
  THINNER("thinner", "thinner than at baseline beyond test–retest"),
  THICKER("thicker", "thicker than at baseline beyond test–retest"),
  WITHIN("within", "within test–retest of the baseline"),
  UNKNOWN("unknown", "whether it changed is not known");

  private final String code;
  private final String words;

  EventVerdict(String code, String words) {
    this.code = code;
    this.words = words;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }

  /** Returns the name used in sentences. */
  public String words() {
    return words;
  }
}
