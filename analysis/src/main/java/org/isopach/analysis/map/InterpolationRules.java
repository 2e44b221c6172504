package org.isopach.analysis.map;

/**
 * What a map is allowed to interpolate over.
 *
 * @param minimumConfidence an A-scan takes part when both boundaries have at least this confidence,
 *     from 0 to 1
 * @param maximumGapMm the longest distance in mm between neighbouring A-scans, along a frame or
 *     from frame to frame, that is interpolated over; wider gaps have no value
 */
public record InterpolationRules(double minimumConfidence, double maximumGapMm) {
  /**
   * The working rules: confidence 0.30, gaps to 0.40 mm. The gap is that of 16 frames over 6 mm.
   * Where both come from is told in {@code docs/measurements.md}.
   */
  public static final InterpolationRules DEFAULT = new InterpolationRules(0.30, 0.40);

  public InterpolationRules {
    if (!(minimumConfidence >= 0 && minimumConfidence <= 1)) {
      throw new IllegalArgumentException(
          "minimumConfidence must be from 0 to 1, was " + minimumConfidence);
    }
    if (!(maximumGapMm > 0) || Double.isInfinite(maximumGapMm)) {
      throw new IllegalArgumentException(
          "maximumGapMm must be finite and positive, was " + maximumGapMm);
    }
  }
}
