package org.isopach.segment;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;

/**
 * Lays a left eye out as a right one and its result back, so that an eye and its mirror image are
 * searched in the same order and give the same numbers.
 */
final class Mirror {
  private Mirror() {}

  /** Returns the scan as of the other eye: A-scans from the other end, fundus x negated. */
  static OctScan of(OctScan scan) {
    int ascans = scan.size().ascans();
    FrameSource frames =
        (frame, into) -> {
          scan.frames().read(frame, into);
          for (int row = 0; row < into.length; row += ascans) {
            reverse(into, row, row + ascans - 1);
          }
        };
    return new OctScan(
        scan.identity(),
        scan.document(),
        scan.laterality().map(Laterality::other),
        scan.size(),
        scan.axial(),
        scan.path().map(ScanPath::mirrored),
        scan.reference(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        frames);
  }

  /** Returns a result with its surfaces, landmark and regions laid back. */
  static SegmentationResult of(SegmentationResult result) {
    Optional<Landmark> fovea = result.fovea().map(Mirror::of);
    Optional<OpticDisc> disc =
        result
            .disc()
            .map(found -> new OpticDisc(of(found.centre()), found.areaMm2(), found.complete()));
    return new SegmentationResult(
        result.boundaries().map(Mirror::of),
        fovea,
        disc,
        result.regions().mirrored(),
        result.findings(),
        result.quality());
  }

  /** Returns a landmark laid back. */
  static Landmark of(Landmark landmark) {
    return new Landmark(of(landmark.point()), landmark.source());
  }

  private static FundusPoint of(FundusPoint point) {
    return new FundusPoint(-point.xMm(), point.yMm());
  }

  /** Returns boundaries laid back. */
  static BoundarySet of(BoundarySet set) {
    Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
    for (Boundary boundary : set.boundaries()) {
      surfaces.put(boundary, of(set.surface(boundary).orElseThrow()));
    }
    return new BoundarySet(surfaces);
  }

  private static BoundarySurface of(BoundarySurface surface) {
    int ascans = surface.ascans();
    float[] depth = new float[surface.frames() * ascans];
    float[] confidence = new float[depth.length];
    byte[] absence = new byte[depth.length];
    for (int f = 0; f < surface.frames(); f++) {
      for (int a = 0; a < ascans; a++) {
        depth[f * ascans + a] = surface.depthPx(f, ascans - 1 - a);
        confidence[f * ascans + a] = surface.confidence(f, ascans - 1 - a);
        absence[f * ascans + a] = surface.absence(f, ascans - 1 - a).mark();
      }
    }
    return new BoundarySurface(surface.frames(), ascans, depth, confidence, absence);
  }

  private static void reverse(float[] values, int first, int last) {
    for (int i = first, j = last; i < j; i++, j--) {
      float swap = values[i];
      values[i] = values[j];
      values[j] = swap;
    }
  }
}
