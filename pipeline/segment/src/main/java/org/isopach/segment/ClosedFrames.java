package org.isopach.segment;

import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;

/**
 * Makes the seam of a circle scan as good as any other place: its frames are read with A-scans of
 * the other end before the first and behind the last, and what is found there is cut off again.
 */
final class ClosedFrames {
  private static final int PART = 12;

  private ClosedFrames() {}

  /** Returns the number of A-scans added on either side. */
  static int spare(OctScan scan) {
    return scan.size().ascans() / PART;
  }

  /** Returns a scan with A-scans of the other end on either side. */
  static OctScan extended(OctScan scan) {
    int ascans = scan.size().ascans();
    int spare = spare(scan);
    int wide = ascans + 2 * spare;
    ScanSize size = new ScanSize(scan.size().frames(), wide, scan.size().depths());
    FrameSource frames =
        (frame, into) -> {
          float[] narrow = new float[scan.size().framePixels()];
          scan.frames().read(frame, narrow);
          for (int d = 0; d < size.depths(); d++) {
            for (int a = 0; a < wide; a++) {
              into[d * wide + a] = narrow[d * ascans + Math.floorMod(a - spare, ascans)];
            }
          }
        };
    return new OctScan(
        scan.identity(),
        scan.document(),
        scan.laterality(),
        size,
        scan.axial(),
        scan.path().map(path -> extended(path, spare)),
        scan.reference(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        frames);
  }

  private static ScanPath extended(ScanPath path, int spare) {
    int wide = path.ascans() + 2 * spare;
    double[] x = new double[path.frames() * wide];
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      int a = Math.floorMod(i % wide - spare, path.ascans());
      x[i] = path.xMm(i / wide, a);
      y[i] = path.yMm(i / wide, a);
    }
    return ScanPath.ofPoints(path.frames(), wide, x, y, path.frame());
  }

  /** Returns boundaries without the A-scans that were added. */
  static BoundarySet cropped(BoundarySet wide, OctScan scan) {
    Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
    for (Boundary boundary : wide.boundaries()) {
      surfaces.put(boundary, cropped(wide.surface(boundary).orElseThrow(), scan));
    }
    return new BoundarySet(surfaces);
  }

  private static BoundarySurface cropped(BoundarySurface wide, OctScan scan) {
    int ascans = scan.size().ascans();
    int spare = spare(scan);
    float[] depth = new float[wide.frames() * ascans];
    float[] confidence = new float[depth.length];
    byte[] absence = new byte[depth.length];
    for (int i = 0; i < depth.length; i++) {
      int f = i / ascans;
      int a = i % ascans + spare;
      depth[i] = wide.depthPx(f, a);
      confidence[i] = wide.confidence(f, a);
      absence[i] = wide.absence(f, a).mark();
    }
    return new BoundarySurface(wide.frames(), ascans, depth, confidence, absence);
  }
}
