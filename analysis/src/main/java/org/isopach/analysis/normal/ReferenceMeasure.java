package org.isopach.analysis.normal;

import java.util.Optional;

/** What is measured, as far as a reference must be of the same. */
public enum ReferenceMeasure {
  /**
   * Mean of a layer's thickness along a circle round the disc, or an arc of it; needs a diameter.
   */
  CIRCLE("circle"),
  /** Mean of a layer's thickness in a sector of a macular grid. */
  GRID("grid"),
  /** Mean of a layer's thickness in an elliptical annulus round the fovea, or a sector of it. */
  ELLIPSE("elliptical-annulus"),
  /** Mean of the least distance from Bruch's membrane opening to the inner limiting membrane. */
  RIM_WIDTH("rim-width");

  private final String code;

  ReferenceMeasure(String code) {
    this.code = code;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }

  /** Returns the measure of a name as {@link #code()} gives it, or empty. */
  public static Optional<ReferenceMeasure> ofCode(String code) {
    for (ReferenceMeasure measure : values()) {
      if (measure.code.equals(code)) {
        return Optional.of(measure);
      }
    }
    return Optional.empty();
  }
}
