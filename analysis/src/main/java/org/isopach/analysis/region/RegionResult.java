package org.isopach.analysis.region;

import java.util.Optional;

/** What is known of one kind of region in one place: a sector, a grid, a scan. */
public sealed interface RegionResult permits MeasuredRegion, UnmeasuredRegion {
  /** Returns the name of the place. */
  String place();

  /** Returns the area of the whole place in mm²; 0 where the frames span none. */
  double placeAreaMm2();

  /** Returns the share of the place that was looked at, from 0 to 1. */
  double coveredFraction();

  /**
   * Returns whether there is any: {@code true} as soon as some was seen, {@code false} only where
   * enough of the place was looked at; empty when it cannot be said.
   */
  Optional<Boolean> present();
}
