package org.isopach.job;

import java.util.Optional;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.nerve.DiscOpening;

/**
 * Tells the pit of the fovea from the cup of the disc, which is a pit too. Limits: ours, see
 * docs/measurements.md, "Circle scans and volumes".
 */
final class PitCheck {
  /** The fovea lies farther from the middle of the disc's opening, mm: about 4.5, from memory. */
  static final double LEAST_FROM_DISC_MM = 3.0;

  /** Bruch's membrane is looked for this far from the pit, mm. */
  static final double NEAR_MM = 0.3;

  /** Under a fovea it is found in at least this share of the A-scans. */
  static final double LEAST_SHARE = 0.5;

  private PitCheck() {}

  /**
   * Returns whether a pit can be the fovea's.
   *
   * @param path of the scan, in its own mm
   * @param looked what was found in it as a scan of the disc
   * @param opening the disc's opening in it
   */
  static boolean isFovea(
      FundusPoint pit, ScanPath path, Optional<BoundarySet> looked, Optional<DiscOpening> opening) {
    if (opening.filter(disc -> disc.centre().distanceMm(pit) < LEAST_FROM_DISC_MM).isPresent()) {
      return false;
    }
    Optional<BoundarySurface> membrane = looked.flatMap(one -> one.surface(Boundary.BM));
    return membrane.isEmpty() || share(pit, path, membrane.get()) >= LEAST_SHARE;
  }

  private static double share(FundusPoint pit, ScanPath path, BoundarySurface membrane) {
    int near = 0;
    int found = 0;
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 0; a < path.ascans(); a++) {
        if (path.point(f, a).distanceMm(pit) <= NEAR_MM) {
          near++;
          found += Float.isNaN(membrane.depthPx(f, a)) ? 0 : 1;
        }
      }
    }
    return near == 0 ? 1 : (double) found / near;
  }
}
