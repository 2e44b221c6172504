package org.isopach.report.table;

/**
 * What is measured of the optic nerve and the ganglion cells; docs/measurements.md defines each.
 */
public enum NerveMeasure {
  /** Thickness of the nerve fibre layer along a circle round the disc. */
  FIBRES("rnfl", "um", 1),
  /** A stretch of the circle that grew thinner beyond noise between two visits. */
  FIBRE_DEFECT("rnfl-defect", "um", 1),
  /** Least distance from the ends of Bruch's membrane to the inner limiting membrane. */
  RIM_WIDTH("rim-width", "um", 1),
  OPENING_AREA("opening-area", "mm2", 3),
  OPENING_LONGEST("opening-longest", "mm", 3),
  OPENING_SHORTEST("opening-shortest", "mm", 3),
  DISC_TILT("disc-tilt", "deg", 1),
  DISC_TILT_TOWARDS("disc-tilt-towards", "deg", 1),
  FOVEA_DISC_ANGLE("fovea-disc-angle", "deg", 1),
  /** Thickness of a layer in an elliptical annulus round the fovea. */
  GANGLION("ganglion", "um", 1),
  GANGLION_MINIMUM("ganglion-minimum", "um", 1),
  /** Mean above the midline less that below it. */
  GANGLION_ASYMMETRY("ganglion-asymmetry", "um", 1),
  /** The same over places only whose mirror image has a value too. */
  GANGLION_ASYMMETRY_MIRRORED("ganglion-asymmetry-mirrored", "um", 1);

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

  /** Returns the decimals that tables give: a tenth of the noise of repeats, or more. */
  public int decimals() {
    return decimals;
  }
}
