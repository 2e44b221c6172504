package org.isopach.analysis.region;

import java.util.Objects;
import java.util.Optional;

/**
 * How much of one kind of region there is in a place. All zero where there is none.
 *
 * @param place name of the sector, of the grid's total or of the scan
 * @param placeAreaMm2 area of the place in mm²
 * @param coveredFraction share of it that was looked at, from 0 to 1
 * @param volumeNl volume in nL (1 nL = 10⁶ µm³) of what was seen
 * @param areaMm2 area on the fundus in mm² under which it lies
 * @param maxHeightUm height in µm of the tallest unbroken run along an A-scan
 */
public record MeasuredRegion(
    String place,
    double placeAreaMm2,
    double coveredFraction,
    double volumeNl,
    double areaMm2,
    double maxHeightUm)
    implements RegionResult {
  public MeasuredRegion {
    Objects.requireNonNull(place, "place");
    if (!(volumeNl >= 0 && areaMm2 >= 0 && maxHeightUm >= 0)) {
      throw new IllegalArgumentException(
          place + ": no size below 0: " + volumeNl + ", " + areaMm2 + ", " + maxHeightUm);
    }
  }

  @Override
  public Optional<Boolean> present() {
    return Optional.of(maxHeightUm > 0);
  }
}
