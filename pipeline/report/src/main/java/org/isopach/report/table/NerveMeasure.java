package org.isopach.report.table;

/**
 * What is measured of the optic nerve and the ganglion cells; docs/measurements.md defines each.
 */
public enum NerveMeasure {
  /** Thickness of the nerve fibre layer along a circle round the disc. */
  FIBRES("rnfl", "um", 3),
  /** A stretch of the circle that grew thinner beyond noise between two visits. */
  FIBRE_DEFECT("rnfl-defect", "um", 3),
  /** Least distance from the ends of Bruch's membrane to the inner limiting membrane. */
  RIM_WIDTH("rim-width", "um", 3),
  OPENING_AREA("opening-area", "mm2", 4),
  OPENING_LONGEST("opening-longest", "mm", 4),
  OPENING_SHORTEST("opening-shortest", "mm", 4),
  DISC_TILT("disc-tilt", "deg", 2),
  DISC_TILT_TOWARDS("disc-tilt-towards", "deg", 1),
  FOVEA_DISC_ANGLE("fovea-disc-angle", "deg", 2),
  /** Thickness of a layer in an elliptical annulus round the fovea. */
  GANGLION("ganglion", "um", 3),
  GANGLION_MINIMUM("ganglion-minimum", "um", 3),
  /** Mean above the midline less that below it. */
  GANGLION_ASYMMETRY("ganglion-asymmetry", "um", 3),
  /** The same over places only whose mirror image has a value too. */
  GANGLION_ASYMMETRY_MIRRORED("ganglion-asymmetry-mirrored", "um", 3);

  private final String code;
  private final String unit;
  private final int decimals;

  NerveMeasure(String code, String unit, int decimals) {
    this.code = code;
    this.unit = unit;
    this.decimals = decimals;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }

  /** Returns the unit of the values, as tables write it. */
  public String unit() {
    return unit;
  }

  /** Returns the decimals that tables give. */
  public int decimals() {
    return decimals;
  }
}
