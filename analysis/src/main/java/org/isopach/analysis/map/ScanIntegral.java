package org.isopach.analysis.map;

/**
 * The integral of a quantity over the part of a scan where it has values.
 *
 * @param sum value times mm²; nothing is added for the part without values
 * @param coveredMm2 area with values
 * @param scannedMm2 area between all neighbouring frames, with values or not
 */
public record ScanIntegral(double sum, double coveredMm2, double scannedMm2) {
  /** Returns the share of the scanned area that has values, from 0 to 1. */
  public double coveredFraction() {
    return scannedMm2 > 0 ? Math.min(1, coveredMm2 / scannedMm2) : 0;
  }
}
