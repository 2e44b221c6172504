package org.isopach.analysis.geometry;

/** The figure that a scan's frames draw on the fundus. */
public enum ScanPattern {
  /** One straight frame. Boundaries can be found; nothing can be averaged over an area. */
  SINGLE_LINE("single line"),
  /** Parallel straight frames, evenly spaced or not, in any orientation. */
  RASTER("raster"),
  /** Straight frames through one common point. */
  RADIAL("radial"),
  /** One or more closed circles. */
  CIRCLE("circle"),
  /** Anything else. */
  IRREGULAR("irregular");

  private final String word;

  ScanPattern(String word) {
    this.word = word;
  }

  /** Returns the pattern's name in plain words. */
  public String word() {
    return word;
  }
}
