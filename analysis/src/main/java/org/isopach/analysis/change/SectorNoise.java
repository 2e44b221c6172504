package org.isopach.analysis.change;

import java.util.Objects;

/**
 * How much a sector's mean varies between scans of an eye that did not change.
 *
 * @param sdUm within-subject standard deviation of one scan's mean in µm; the difference of two has
 *     √2 times as much
 * @param degreesOfFreedom on which the standard deviation rests; may be infinite
 * @param placeVarianceUm2 of the variance of the difference, the part that the repeats owe to their
 *     own errors of place, µm²; 0 where not known
 * @param doubtUm2 the greatest segmentation doubt of the repeats in the sector ({@link
 *     SegmentationDoubt}), µm²
 * @param source where the figures come from
 * @param reference what was measured or which table row was used, in plain words
 */
public record SectorNoise(
    double sdUm,
    double degreesOfFreedom,
    double placeVarianceUm2,
    double doubtUm2,
    NoiseSource source,
    String reference) {
  public SectorNoise {
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(reference, "reference");
    if (!(sdUm >= 0) || Double.isInfinite(sdUm) || !(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException(
          "a standard deviation and degrees of freedom, were " + sdUm + ", " + degreesOfFreedom);
    }
    if (!(placeVarianceUm2 >= 0) || !(doubtUm2 >= 0)) {
      throw new IllegalArgumentException(
          "variances are 0 or more, were " + placeVarianceUm2 + ", " + doubtUm2);
    }
  }
}
