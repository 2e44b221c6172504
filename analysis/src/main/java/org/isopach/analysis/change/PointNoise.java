package org.isopach.analysis.change;

import java.util.Map;
import java.util.Objects;

/**
 * How much a smoothed map varies from place to place between scans of an eye that did not change.
 *
 * @param spots the noise within each sector, by the sector's name
 * @param smoothingMm standard deviation in mm of the Gaussian that maps are smoothed with before
 *     they are judged
 * @param tailDegrees degrees of freedom of the Student distribution whose tails fit, above 2; may
 *     be infinite
 * @param correlationLengthMm distance in mm at which the correlation of the smoothed noise has
 *     fallen to 1/e
 * @param source where the figures come from
 * @param reference what was measured or which table row was used, in plain words
 */
public record PointNoise(
    Map<String, Spot> spots,
    double smoothingMm,
    double tailDegrees,
    double correlationLengthMm,
    NoiseSource source,
    String reference) {
  private static final double FWHM = 2 * Math.sqrt(2 * Math.log(2));

  /**
   * The noise at a place of one sector.
   *
   * @param sdUm standard deviation of one scan in µm after smoothing
   * @param placeVarianceUm2 of the variance of a difference, the part owed to errors of place
   * @param doubtUm2 the greatest segmentation doubt of the repeats in the sector, µm²
   */
  public record Spot(double sdUm, double placeVarianceUm2, double doubtUm2) {
    /**
     * Errors of place are not believed to make up more than this share of the repeats' variance.
     */
    private static final double MOST_PLACE = 0.5;

    /** Returns the variance of a difference in µm² without what errors of place add to it. */
    double netVarianceUm2() {
      double whole = 2 * sdUm * sdUm;
      return Math.max(whole - placeVarianceUm2, (1 - MOST_PLACE) * whole);
    }
  }

  public PointNoise {
    spots = Map.copyOf(spots);
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(reference, "reference");
    if (!(smoothingMm > 0) || !(tailDegrees > 2) || !(correlationLengthMm > 0)) {
      throw new IllegalArgumentException(
          "smoothing " + smoothingMm + ", tail " + tailDegrees + ", length " + correlationLengthMm);
    }
  }

  /** Returns the full width at half height of the smoothing, in mm: the stated resolution. */
  public double resolutionMm() {
    return FWHM * smoothingMm;
  }

  /** Returns the least area of a region in mm²: a disc as wide as the resolution. */
  public double minimumAreaMm2() {
    return Math.PI * resolutionMm() * resolutionMm() / 4;
  }
}
