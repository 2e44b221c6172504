package org.isopach.cli.accuracy;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.region.RegionKind;

/**
 * The errors of one scan under one condition.
 *
 * @param seed the eye
 * @param refused whether the whole scan was refused; no depth and no sector has a number then
 * @param depths errors of each boundary
 * @param confidence rightness of each boundary by confidence
 * @param sectors errors of the nine sectors' means of each layer, the grid on the true fovea; only
 *     sectors that have a truth
 * @param regions voxels and volumes of each kind
 */
record ConditionScan(
    long seed,
    boolean refused,
    Map<Boundary, DepthTally> depths,
    Map<Boundary, Reliability> confidence,
    List<PlaceError> sectors,
    Map<RegionKind, RegionScore> regions) {
  ConditionScan {
    depths = Collections.unmodifiableMap(new EnumMap<>(depths));
    confidence = Collections.unmodifiableMap(new EnumMap<>(confidence));
    sectors = List.copyOf(sectors);
    regions = Collections.unmodifiableMap(new EnumMap<>(regions));
  }

  /** Returns the number of voxels that were given any label. */
  long labelled() {
    return regions.values().stream().mapToLong(score -> score.overlap().found()).sum();
  }

  /** Returns the volume in nL of everything that was given a label. */
  double labelledNl() {
    return regions.values().stream().mapToDouble(RegionScore::foundNl).sum();
  }
}
