package org.isopach.analysis.geometry;

/**
 * The scale of an eye: mm on the retina for each degree of visual angle.
 *
 * <p>The abbreviated axial-length formula of Bennett, Rudnicka and Edgar (Graefe's Archive 1994;
 * 232:361): {@code q = 0.01306 (AL - 1.82)}. Constants cited from memory. Only ratios of two eyes'
 * scales are used here, so the instrument's own factor cancels.
 *
 * <p>Example: an instrument that assumed 24 mm and an eye of 26 mm give the factor 1.09017; every
 * length on the fundus was 9 % longer than stated.
 *
 * @param axialLengthMm length of the eye in mm, from {@value #SHORTEST_MM} to {@value #LONGEST_MM};
 *     the limits are our plausibility gate, outside which a length is taken for a slip of the pen
 */
public record OcularMagnification(double axialLengthMm) {
  /** Shortest axial length in mm that is believed. */
  public static final double SHORTEST_MM = 18.0;

  /** Longest axial length in mm that is believed. */
  public static final double LONGEST_MM = 35.0;

  private static final double MM_PER_DEGREE_PER_MM = 0.01306;
  private static final double PRINCIPAL_POINT_MM = 1.82;

  /**
   * @throws IllegalArgumentException when the length is not plausible
   */
  public OcularMagnification {
    if (!(axialLengthMm >= SHORTEST_MM && axialLengthMm <= LONGEST_MM)) {
      throw new IllegalArgumentException(
          "an axial length must be from "
              + SHORTEST_MM
              + " to "
              + LONGEST_MM
              + " mm, was "
              + axialLengthMm);
    }
  }

  /** Returns mm on the retina per degree. Example: 0.289671 at 24 mm. */
  public double mmPerDegree() {
    return MM_PER_DEGREE_PER_MM * (axialLengthMm - PRINCIPAL_POINT_MM);
  }

  /**
   * Returns what lengths made under another assumption must be multiplied with to hold in this eye.
   *
   * @param assumed the eye the instrument assumed when it stated its lengths
   */
  public double factorFrom(OcularMagnification assumed) {
    return mmPerDegree() / assumed.mmPerDegree();
  }

  /**
   * Returns a scan path in this eye's mm. The origin stays in place; a landmark found on the path
   * given must be multiplied with the same factor.
   *
   * @param path as the instrument stated it
   * @param assumed the eye the instrument assumed
   */
  public ScanPath rescale(ScanPath path, OcularMagnification assumed) {
    return path.scaledBy(factorFrom(assumed));
  }
}
