package org.isopach.analysis.change;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;

/**
 * Two scans of an eye that did not change between them, or two visits to be judged, laid on one
 * another.
 *
 * @param compared the difference of the two in one layer
 * @param placeSdMm standard deviation along each axis of the error of place of one on the other, mm
 * @param firstDoubt segmentation doubt of the first scan by sector, µm²; sectors may be missing
 * @param secondDoubt of the second
 */
public record RepeatPair(
    VisitChange.Compared compared,
    double placeSdMm,
    Map<String, Double> firstDoubt,
    Map<String, Double> secondDoubt) {
  public RepeatPair {
    Objects.requireNonNull(compared, "compared");
    if (!(placeSdMm >= 0) || Double.isInfinite(placeSdMm)) {
      throw new IllegalArgumentException("placeSdMm must be 0 or more, was " + placeSdMm);
    }
    firstDoubt = Map.copyOf(firstDoubt);
    secondDoubt = Map.copyOf(secondDoubt);
  }

  /** Returns the greater doubt of the two by sector; a sector is missing when both lack it. */
  Map<String, Double> greaterDoubt() {
    Map<String, Double> greater = new LinkedHashMap<>(firstDoubt);
    secondDoubt.forEach((sector, doubt) -> greater.merge(sector, doubt, Math::max));
    return greater;
  }
}
