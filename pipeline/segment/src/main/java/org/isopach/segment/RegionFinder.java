package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.segment.tissue.TissueMap;

/**
 * Labels the regions of a scan where its depths may be trusted too: not in frames near the noise,
 * not where a folded image lies over the retina, not in the disc, and not in front of the inner
 * limiting membrane or behind Bruch's membrane.
 */
final class RegionFinder {
  private static final float SPARE_PIXELS = 2;

  private final LoadedScan loaded;
  private final QualityMeter meter;
  private final BoundarySet boundaries;

  RegionFinder(LoadedScan loaded, QualityMeter meter, BoundarySet boundaries) {
    this.loaded = loaded;
    this.meter = meter;
    this.boundaries = boundaries;
  }

  /** Returns the labels; a frame near the noise counts as not looked at. */
  RegionLabels find(FrameLoop loop) throws InterruptedException {
    OctScan scan = loaded.scan();
    TissueMap[] maps = loaded.tissues();
    RegionLabels.Builder regions =
        RegionLabels.builder(scan.size(), RegionPainter.TISSUES.keySet());
    loop.run(
        loaded.frames(),
        () -> {
          RegionPainter painter = new RegionPainter(scan.size());
          RegionSieve sieve =
              new RegionSieve(
                  scan.size(),
                  RetinaSegmenter.ascanMicrometres(scan),
                  scan.axial().micrometresPerPixel());
          return frame -> {
            if (maps[frame] != null && meter.trusts(frame)) {
              byte[] labels = painter.paint(maps[frame]);
              clear(frame, labels);
              sieve.sift(labels, maps[frame]);
              regions.set(frame, labels);
            }
          };
        });
    return regions.build();
  }

  private void clear(int frame, byte[] labels) {
    ScanSize size = loaded.scan().size();
    for (int a = 0; a < size.ascans(); a++) {
      float ilm = depth(Boundary.ILM, frame, a);
      float bm = depth(Boundary.BM, frame, a);
      boolean all = !meter.trusts(frame, a);
      for (int d = 0; d < size.depths(); d++) {
        // A comparison with a missing depth is false: nothing is cut off there.
        if (all || d < ilm - SPARE_PIXELS || d > bm + SPARE_PIXELS) {
          labels[d * size.ascans() + a] = 0;
        }
      }
    }
  }

  private float depth(Boundary boundary, int frame, int ascan) {
    return boundaries.surface(boundary).orElseThrow().depthPx(frame, ascan);
  }
}
