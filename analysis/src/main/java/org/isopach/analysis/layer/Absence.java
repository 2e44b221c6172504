package org.isopach.analysis.layer;

/** Why a boundary has no depth at an A-scan. */
public enum Absence {
  /** It has one. */
  NONE(0, ""),
  /** The boundary lies beyond the frame's first or last pixel. */
  OUT_OF_FRAME(1, "out-of-frame"),
  /** It lies in a margin of the frame that holds no picture. */
  MARGIN(2, "margin"),
  /** The frame was not decoded, or is too dark to trust any edge in it. */
  DARK_FRAME(3, "dark-frame"),
  /** A shadow, or no edge clear enough. */
  SHADOW_OR_NO_EDGE(4, "shadow-or-no-edge"),
  /** The layer that the boundary belongs to is not there. */
  LAYER_LOST(5, "layer-lost"),
  /** Inside the optic disc, where the layers end. */
  DISC(6, "disc"),
  /** The boundary was not looked for at this place. */
  NOT_SEARCHED(7, "not-searched"),
  /** Whoever made the surface did not say why. */
  UNSTATED(8, "unstated");

  private static final Absence[] BY_MARK = {
    NONE,
    OUT_OF_FRAME,
    MARGIN,
    DARK_FRAME,
    SHADOW_OR_NO_EDGE,
    LAYER_LOST,
    DISC,
    NOT_SEARCHED,
    UNSTATED
  };

  private final byte mark;
  private final String code;

  Absence(int mark, String code) {
    this.mark = (byte) mark;
    this.code = code;
  }

  /** Returns the value that stands for this reason in arrays. */
  public byte mark() {
    return mark;
  }

  /** Returns the name used in tables; empty for {@link #NONE}. */
  public String code() {
    return code;
  }

  /**
   * Returns the reason of a mark.
   *
   * @throws IllegalArgumentException when there is none
   */
  public static Absence ofMark(byte mark) {
    if (mark < 0 || mark >= BY_MARK.length) {
      throw new IllegalArgumentException("no reason has the mark " + mark);
    }
    return BY_MARK[mark];
  }
}
