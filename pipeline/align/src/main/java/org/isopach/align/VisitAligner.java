package org.isopach.align;

import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.map.Landmark;

/**
 * Decides by what the scans of two visits are put on one lattice.
 *
 * <p>Two foveal pits are one place of the retina: each map is centred on its own. Failing that, two
 * scans placed in one coordinate system share its points: both maps are centred on the pit that was
 * found, or on the baseline's centre when neither was. A pit in one scan and the middle of another,
 * in coordinates of their own, are no two views of one place: they are refused.
 */
public final class VisitAligner {
  /**
   * Of two pits on one another, along each axis. On healthy phantoms a pit is found within 26 µm in
   * half of the eyes (median of the distance): 26 / 1.177 µm along each axis, times √2 for two.
   * Ours; see {@code docs/accuracy.md}.
   */
  static final double PIT_SD_MM = 0.031;

  /** Of an instrument that places both scans itself. Ours; nothing was at hand to measure it. */
  static final double FRAME_SD_MM = 0.050;

  private VisitAligner() {}

  /** Returns the centres to map two visits about, or why there are none. */
  public static VisitAlignment align(ScanPlace baseline, ScanPlace followUp) {
    if (hasPit(baseline) && hasPit(followUp)) {
      return new VisitAlignment.Aligned(
          baseline.landmark(), followUp.landmark(), VisitAlignment.Method.FOVEAL_PIT, PIT_SD_MM);
    }
    if (share(baseline.frame(), followUp.frame())) {
      Landmark common = hasPit(followUp) ? followUp.landmark() : baseline.landmark();
      return new VisitAlignment.Aligned(
          common, common, VisitAlignment.Method.SHARED_FRAME, FRAME_SD_MM);
    }
    return new VisitAlignment.NotAligned(
        "the centres are "
            + baseline.landmark().source().code()
            + " and "
            + followUp.landmark().source().code()
            + ", and the scans share no coordinate system");
  }

  private static boolean hasPit(ScanPlace place) {
    return place.landmark().source() == Landmark.Source.FOVEAL_PIT;
  }

  private static boolean share(FundusFrame a, FundusFrame b) {
    return !a.uid().isEmpty() && a.equals(b);
  }
}
