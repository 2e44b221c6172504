package org.isopach.cli.accuracy;

import java.util.Objects;
import org.isopach.analysis.region.RegionKind;

/**
 * One kind of region in one scan beside the truth. Volumes are in nL.
 *
 * @param kind the kind
 * @param overlap of the voxels of all frames
 * @param trueNl volume of the true voxels
 * @param foundNl volume of the voxels found, by the same rule
 * @param anatomyNl true volume in the eye within {@link RegionScorer#CIRCLE_MM} around the foveola,
 *     from the anatomy and not from the frames; NaN when the scan has none of it
 * @param foundInCircleNl volume of the voxels found in A-scans planned within that circle
 */
record RegionScore(
    RegionKind kind,
    Overlap overlap,
    double trueNl,
    double foundNl,
    double anatomyNl,
    double foundInCircleNl) {
  /** A lesion of more than this many nL is judged: 0.005 mm³. */
  static final double LEAST_NL = 5;

  private static final double NEAR_SHARE = 0.1;
  private static final double NEAR_NL = 2;

  RegionScore {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(overlap, "overlap");
  }

  /** Returns whether there is enough of it to be judged. */
  boolean judged() {
    return trueNl > LEAST_NL;
  }

  /** Returns whether the volume is near that of the true voxels of the same frames. */
  boolean volumeNear() {
    return near(foundNl, trueNl);
  }

  /** Returns whether the volume in the circle is near that of the anatomy. */
  boolean anatomyNear() {
    return near(foundInCircleNl, anatomyNl);
  }

  /** Returns whether a volume is within 10 % or 2 nL of the truth, whichever is more. */
  static boolean near(double foundNl, double trueNl) {
    return Math.abs(foundNl - trueNl) <= Math.max(NEAR_NL, NEAR_SHARE * trueNl);
  }
}
