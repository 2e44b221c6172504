package org.isopach.job;

/** What a scan is taken for when the nerve is measured. A wide volume is two of them. */
public enum NerveRole {
  /** A scan along a circle round the disc. */
  CIRCLE("circle"),
  /** Frames over the disc, whose opening is looked for. */
  DISC_VOLUME("disc-volume"),
  /** Frames over the fovea. */
  MACULA_VOLUME("macula-volume");

  private final String code;

  NerveRole(String code) {
    this.code = code;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }
}
