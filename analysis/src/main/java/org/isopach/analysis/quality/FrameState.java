package org.isopach.analysis.quality;

/** What became of a frame. */
public enum FrameState {
  /** Boundaries were looked for and kept where they were sure. */
  MEASURED("measured"),
  /** Its signal is too near the noise; it has no depths. */
  LOW_SIGNAL("low-signal"),
  /** It shows next to nothing beside the scan's other frames, as in a blink; it has no depths. */
  DARK("dark"),
  /** It could not be read or decoded. */
  UNREADABLE("unreadable"),
  /** It was read, but the scan as a whole was refused. */
  REFUSED("refused");

  private final String code;

  FrameState(String code) {
    this.code = code;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }
}
