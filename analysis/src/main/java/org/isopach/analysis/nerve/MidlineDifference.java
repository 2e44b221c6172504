package org.isopach.analysis.nerve;

/**
 * The thickness above the midline against that below it.
 *
 * @param superiorUm mean above, µm, weighted with area
 * @param inferiorUm mean below, µm
 * @param coveredFraction share of what was to be compared that could be, from 0 to 1
 */
public record MidlineDifference(double superiorUm, double inferiorUm, double coveredFraction)
    implements MidlineResult {
  public MidlineDifference {
    if (!Double.isFinite(superiorUm) || !Double.isFinite(inferiorUm)) {
      throw new IllegalArgumentException(
          "a measurement must be finite, was " + superiorUm + " and " + inferiorUm);
    }
  }

  /** Returns superior less inferior, µm. */
  public double differenceUm() {
    return superiorUm - inferiorUm;
  }
}
