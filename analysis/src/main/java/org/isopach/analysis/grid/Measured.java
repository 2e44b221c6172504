package org.isopach.analysis.grid;

import java.util.Objects;

/**
 * The thickness of a layer in one sector.
 *
 * @param sector the sector's name
 * @param meanUm mean thickness in µm, each cell weighted with its area in the sector
 * @param sdUm standard deviation of the cells in µm, same weights, of the population; it describes
 *     the shape of the retina in the sector, not the error of the mean
 * @param minUm thinnest cell that touches the sector, µm
 * @param maxUm thickest cell that touches the sector, µm
 * @param areaMm2 the sector's whole area in mm²
 * @param coveredFraction share of that area where the map has values, from 0 to 1
 */
public record Measured(
    String sector,
    double meanUm,
    double sdUm,
    double minUm,
    double maxUm,
    double areaMm2,
    double coveredFraction)
    implements SectorResult {
  private static final double UM_PER_MM = 1000;

  public Measured {
    Objects.requireNonNull(sector, "sector");
    if (!Double.isFinite(meanUm) || !Double.isFinite(sdUm)) {
      throw new IllegalArgumentException(
          sector + ": a measurement must be finite, was " + meanUm + " and " + sdUm);
    }
  }

  /** Returns the volume of the layer in the sector in mm³: mean times whole area. */
  public double volumeMm3() {
    return meanUm * areaMm2 / UM_PER_MM;
  }
}
