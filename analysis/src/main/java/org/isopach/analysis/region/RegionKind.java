package org.isopach.analysis.region;

import java.util.Optional;

/**
 * What a region of a scan can be. The label is the grey of its pixels in label images; 0 is none of
 * these. Definitions: docs/measurements.md, "Regions".
 */
public enum RegionKind {
  /** Fluid inside the neurosensory retina: cysts. */
  INTRARETINAL_FLUID(1, "intraretinal-fluid"),
  /** Fluid between the photoreceptors and the pigment epithelium. */
  SUBRETINAL_FLUID(2, "subretinal-fluid"),
  /**
   * The space from pigment epithelium to Bruch's membrane where drusen or a detachment raise it.
   */
  RPE_ELEVATION(3, "rpe-elevation"),
  /** Bright matter under the retina or under the pigment epithelium. */
  HYPERREFLECTIVE_MATERIAL(4, "hyperreflective-material");

  private static final RegionKind[] BY_LABEL = {
    null, INTRARETINAL_FLUID, SUBRETINAL_FLUID, RPE_ELEVATION, HYPERREFLECTIVE_MATERIAL
  };

  private final byte label;
  private final String code;

  RegionKind(int label, String code) {
    this.label = (byte) label;
    this.code = code;
  }

  /** Returns the value of this kind's voxels, 1 to 4. */
  public byte label() {
    return label;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }

  /**
   * Returns the kind of a label, or empty for 0.
   *
   * @throws IllegalArgumentException when the label is not one of 0 to 4
   */
  public static Optional<RegionKind> ofLabel(int label) {
    if (label < 0 || label >= BY_LABEL.length) {
      throw new IllegalArgumentException("a label is from 0 to 4, was " + label);
    }
    return Optional.ofNullable(BY_LABEL[label]);
  }
}
