package org.isopach.analysis.nerve;

import java.util.Objects;

/**
 * Why a scan along a circle gives no profile.
 *
 * @param reason the kind of obstacle
 * @param detail the particulars in plain words, with the figure found
 */
public record NoCircle(Reason reason, String detail) implements CircleResult {
  /** What can keep a circle from being read. */
  public enum Reason {
    /** The eye is not known, and so neither is the direction nor the start. */
    NO_LATERALITY("no-laterality"),
    /** The layer's boundaries were not looked for. */
    LAYER_NOT_SEARCHED("layer-not-searched"),
    /** The A-scans do not lie on a circle, or do not run one way round it. */
    NOT_ROUND("not-round"),
    /** The path is less than a full turn. */
    TRUNCATED("truncated-circle"),
    /** The frames are circles of different sizes or places. */
    FRAMES_DIFFER("frames-differ");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }

  public NoCircle {
    Objects.requireNonNull(reason, "reason");
    Objects.requireNonNull(detail, "detail");
  }
}
