package org.isopach.analysis.region;

import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;

/**
 * Which A-scans were looked at: those of frames that were searched, where the retina is held
 * between ILM and BM or where something was found.
 */
final class LookedAt {
  private LookedAt() {}

  /** Returns one entry for each A-scan, index {@code frame * ascans + ascan}. */
  static boolean[] of(BoundarySet boundaries, RegionLabels labels) {
    int ascans = labels.size().ascans();
    boolean[] looked = new boolean[labels.size().frames() * ascans];
    Optional<BoundarySurface> top = boundaries.surface(Boundary.ILM);
    Optional<BoundarySurface> bottom = boundaries.surface(Boundary.BM);
    for (int f = 0; f < labels.size().frames(); f++) {
      if (!labels.searched(f)) {
        continue;
      }
      for (int a = 0; a < ascans; a++) {
        looked[f * ascans + a] = has(top, f, a) && has(bottom, f, a);
      }
      markFound(labels, f, looked);
    }
    return looked;
  }

  private static void markFound(RegionLabels labels, int frame, boolean[] looked) {
    if (!labels.any(frame)) {
      return;
    }
    int ascans = labels.size().ascans();
    byte[] voxels = labels.frame(frame);
    for (int i = 0; i < voxels.length; i++) {
      if (voxels[i] != 0) {
        looked[frame * ascans + i % ascans] = true;
      }
    }
  }

  private static boolean has(Optional<BoundarySurface> surface, int frame, int ascan) {
    return surface.isPresent() && !Float.isNaN(surface.get().depthPx(frame, ascan));
  }
}
