package org.isopach.job;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.segment.SegmentationResult;

/** Segmentations made by hand: the true boundaries, and boxes of labels. */
final class HandMade {
  static final Set<RegionKind> FLUIDS =
      EnumSet.of(RegionKind.INTRARETINAL_FLUID, RegionKind.SUBRETINAL_FLUID);

  private HandMade() {}

  /** Returns a scan's true boundaries and fovea, and two boxes of fluid in frames 8 to 10. */
  static SegmentationResult segmentation(OctScan scan, PhantomTruth truth) {
    boolean area = scan.path().isPresent() && scan.size().frames() > 1;
    return new SegmentationResult(
        Optional.of(truth.boundaries()),
        area
            ? Optional.of(new Landmark(truth.fovea(), Landmark.Source.FOVEAL_PIT))
            : Optional.empty(),
        Optional.empty(),
        labels(scan.size(), truth.boundaries()),
        List.of(),
        new ScanQuality(List.of(), OptionalDouble.empty(), OptionalDouble.empty()));
  }

  /** Fluid inside the retina 24 px high, and under it 10 px high, 12 and 30 A-scans wide. */
  static RegionLabels labels(ScanSize size, BoundarySet boundaries) {
    RegionLabels.Builder builder = RegionLabels.builder(size, FLUIDS);
    int first = size.frames() > 1 ? 8 : 0;
    int end = size.frames() > 1 ? 11 : 1;
    for (int f = 0; f < size.frames(); f++) {
      byte[] labels = new byte[size.framePixels()];
      if (f >= first && f < end) {
        int middle = size.ascans() / 2;
        box(labels, size, 120, 144, middle - 6, middle + 6, RegionKind.INTRARETINAL_FLUID);
        box(labels, size, 170, 180, middle - 15, middle + 15, RegionKind.SUBRETINAL_FLUID);
      }
      builder.set(f, labels);
    }
    return builder.build();
  }

  private static void box(
      byte[] labels, ScanSize size, int d0, int d1, int a0, int a1, RegionKind kind) {
    for (int d = d0; d < d1; d++) {
      for (int a = a0; a < a1; a++) {
        labels[d * size.ascans() + a] = kind.label();
      }
    }
  }
}
