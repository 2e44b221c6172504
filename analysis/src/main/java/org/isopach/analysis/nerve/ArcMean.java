package org.isopach.analysis.nerve;

import java.util.Objects;

/**
 * The values of a profile in one arc.
 *
 * @param arc the arc's name
 * @param meanUm mean in µm, each sample weighted with its angle in the arc
 * @param sdUm standard deviation of the samples in µm, same weights, of the population; it
 *     describes the shape of the profile, not the error of the mean
 * @param minUm least sample that touches the arc, µm
 * @param maxUm greatest sample that touches the arc, µm
 * @param widthDegrees the arc's width
 * @param coveredFraction share of it that has values, from 0 to 1
 */
public record ArcMean(
    String arc,
    double meanUm,
    double sdUm,
    double minUm,
    double maxUm,
    double widthDegrees,
    double coveredFraction)
    implements ArcResult {
  public ArcMean {
    Objects.requireNonNull(arc, "arc");
    if (!Double.isFinite(meanUm) || !Double.isFinite(sdUm)) {
      throw new IllegalArgumentException(
          arc + ": a measurement must be finite, was " + meanUm + " and " + sdUm);
    }
  }
}
