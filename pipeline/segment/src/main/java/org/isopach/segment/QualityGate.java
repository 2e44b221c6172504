package org.isopach.segment;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.layer.Absence;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;

/** Takes the depths out of frames and A-scans that are too poor to be trusted. */
final class QualityGate {
  private QualityGate() {}

  /**
   * Returns the boundaries without what the looks forbid; the same object when they forbid nothing.
   *
   * @param looks one for each frame, null where there was none
   */
  static BoundarySet apply(BoundarySet boundaries, FrameLook[] looks) {
    if (Arrays.stream(looks).allMatch(look -> look == null || look.keepsAll())) {
      return boundaries;
    }
    Map<Boundary, BoundarySurface> kept = new EnumMap<>(Boundary.class);
    for (Boundary boundary : boundaries.boundaries()) {
      kept.put(boundary, apply(boundaries.surface(boundary).orElseThrow(), looks));
    }
    return new BoundarySet(kept);
  }

  /** Returns the boundaries without all but the inner limiting membrane in the optic disc. */
  static BoundarySet withoutOuter(BoundarySet boundaries, DiscFinder.Found disc, CoarseGrid grid) {
    return withoutOuter(boundaries, (f, a) -> !disc.contains(f, (int) Math.round(grid.column(a))));
  }

  /** Returns the boundaries with all but the inner limiting membrane only where said so. */
  static BoundarySet withoutOuter(BoundarySet boundaries, Keep keep) {
    Map<Boundary, BoundarySurface> kept = new EnumMap<>(Boundary.class);
    for (Boundary boundary : boundaries.boundaries()) {
      BoundarySurface surface = boundaries.surface(boundary).orElseThrow();
      kept.put(boundary, boundary == Boundary.ILM ? surface : keeping(surface, keep, Absence.DISC));
    }
    return new BoundarySet(kept);
  }

  /** Tells which A-scans keep their depths. */
  interface Keep {
    boolean ascan(int frame, int ascan);
  }

  private static BoundarySurface apply(BoundarySurface surface, FrameLook[] looks) {
    return keeping(
        surface, (f, a) -> looks[f] == null || looks[f].keeps(a), Absence.SHADOW_OR_NO_EDGE);
  }

  private static BoundarySurface keeping(BoundarySurface surface, Keep keep, Absence otherwise) {
    int ascans = surface.ascans();
    float[] depth = new float[surface.frames() * ascans];
    float[] confidence = new float[depth.length];
    byte[] absence = new byte[depth.length];
    for (int f = 0; f < surface.frames(); f++) {
      for (int a = 0; a < ascans; a++) {
        int i = f * ascans + a;
        boolean kept = keep.ascan(f, a);
        depth[i] = kept ? surface.depthPx(f, a) : Float.NaN;
        confidence[i] = surface.confidence(f, a);
        boolean had = surface.absence(f, a) == Absence.NONE;
        absence[i] = (kept || !had ? surface.absence(f, a) : otherwise).mark();
      }
    }
    return new BoundarySurface(surface.frames(), ascans, depth, confidence, absence);
  }
}
