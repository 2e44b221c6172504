package org.isopach.job;

import java.util.Arrays;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;

/** Whether two objects hold the same picture, so that nothing can be learnt from comparing them. */
final class SamePicture {
  private SamePicture() {}

  /**
   * Returns whether every pixel of two scans is the same. Frames are read only when the depths
   * found in both are the same to the last bit.
   */
  static boolean of(MeasuredScan a, MeasuredScan b) {
    return a.scan().size().equals(b.scan().size())
        && sameDepths(a.boundaries().orElseThrow(), b.boundaries().orElseThrow())
        && samePixels(a.scan(), b.scan());
  }

  private static boolean sameDepths(BoundarySet a, BoundarySet b) {
    for (Boundary boundary : Boundary.values()) {
      if (a.surface(boundary).isPresent() != b.surface(boundary).isPresent()) {
        return false;
      }
      if (a.surface(boundary).isPresent()
          && !same(a.surface(boundary).get(), b.surface(boundary).get())) {
        return false;
      }
    }
    return true;
  }

  private static boolean same(BoundarySurface a, BoundarySurface b) {
    for (int f = 0; f < a.frames(); f++) {
      for (int i = 0; i < a.ascans(); i++) {
        if (Float.compare(a.depthPx(f, i), b.depthPx(f, i)) != 0) {
          return false;
        }
      }
    }
    return true;
  }

  private static boolean samePixels(OctScan a, OctScan b) {
    float[] one = new float[a.size().depths() * a.size().ascans()];
    float[] other = new float[one.length];
    try {
      for (int f = 0; f < a.size().frames(); f++) {
        a.frames().read(f, one);
        b.frames().read(f, other);
        if (!Arrays.equals(one, other)) {
          return false;
        }
      }
      return true;
    } catch (FrameReadException e) {
      // A frame that cannot be read cannot be shown to be the same.
      return false;
    }
  }
}
