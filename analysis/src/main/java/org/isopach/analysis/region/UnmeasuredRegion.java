package org.isopach.analysis.region;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.grid.NotMeasurable;

/**
 * Why a place has no volume of a kind of region, and what can be said all the same.
 *
 * @param place name of the sector, of the grid's total or of the scan
 * @param placeAreaMm2 area of the place in mm²; 0 where the frames span none
 * @param coveredFraction share of it that was looked at, from 0 to 1
 * @param present whether there is any; empty when too little was looked at to say no
 * @param maxHeightUm tallest unbroken run in µm, where enough was looked at; else empty
 * @param reason the kind of obstacle
 * @param detail the particulars in plain words
 */
public record UnmeasuredRegion(
    String place,
    double placeAreaMm2,
    double coveredFraction,
    Optional<Boolean> present,
    OptionalDouble maxHeightUm,
    NotMeasurable.Reason reason,
    String detail)
    implements RegionResult {
  public UnmeasuredRegion {
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(present, "present");
    Objects.requireNonNull(maxHeightUm, "maxHeightUm");
    Objects.requireNonNull(reason, "reason");
    Objects.requireNonNull(detail, "detail");
  }
}
