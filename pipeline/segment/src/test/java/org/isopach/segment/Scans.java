package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;

/** Scans made from another by changing one thing. */
final class Scans {
  private Scans() {}

  /** Returns the scan with its frames rendered once and kept. */
  static OctScan rendered(OctScan scan) {
    float[][] frames = new float[scan.size().frames()][scan.size().framePixels()];
    for (int f = 0; f < frames.length; f++) {
      try {
        scan.frames().read(f, frames[f]);
      } catch (FrameReadException e) {
        throw new IllegalStateException(e);
      }
    }
    return withFrames(
        scan, (frame, into) -> System.arraycopy(frames[frame], 0, into, 0, into.length));
  }

  static OctScan withFrames(OctScan scan, FrameSource frames) {
    return copy(scan, scan.path(), frames);
  }

  static OctScan withLaterality(OctScan scan, Optional<Laterality> laterality) {
    return new OctScan(
        scan.identity(),
        scan.document(),
        laterality,
        scan.size(),
        scan.axial(),
        scan.path(),
        scan.reference(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        scan.frames());
  }

  static OctScan withoutPath(OctScan scan) {
    return copy(scan, Optional.empty(), scan.frames());
  }

  static OctScan pathMoved(OctScan scan, FundusPoint by) {
    ScanPath path = scan.path().orElseThrow();
    int points = path.frames() * path.ascans();
    double[] x = new double[points];
    double[] y = new double[points];
    for (int i = 0; i < points; i++) {
      x[i] = path.xMm(i / path.ascans(), i % path.ascans()) + by.xMm();
      y[i] = path.yMm(i / path.ascans(), i % path.ascans()) + by.yMm();
    }
    return copy(
        scan,
        Optional.of(ScanPath.ofPoints(path.frames(), path.ascans(), x, y, path.frame())),
        scan.frames());
  }

  static OctScan upsideDown(OctScan scan) {
    int ascans = scan.size().ascans();
    int depths = scan.size().depths();
    return withFrames(
        scan,
        (frame, into) -> {
          float[] picture = new float[into.length];
          scan.frames().read(frame, picture);
          for (int d = 0; d < depths; d++) {
            System.arraycopy(picture, (depths - 1 - d) * ascans, into, d * ascans, ascans);
          }
        });
  }

  static OctScan mirrored(OctScan scan) {
    int ascans = scan.size().ascans();
    return withFrames(
        scan,
        (frame, into) -> {
          float[] picture = new float[into.length];
          scan.frames().read(frame, picture);
          for (int i = 0; i < into.length; i++) {
            into[i] = picture[i - i % ascans + ascans - 1 - i % ascans];
          }
        });
  }

  /** Returns the scan with every frame moved down, the rows let in at the top copied from it. */
  static OctScan lowered(OctScan scan, int pixels) {
    int ascans = scan.size().ascans();
    return withFrames(
        scan,
        (frame, into) -> {
          float[] picture = new float[into.length];
          scan.frames().read(frame, picture);
          System.arraycopy(picture, 0, into, 0, pixels * ascans);
          System.arraycopy(picture, 0, into, pixels * ascans, into.length - pixels * ascans);
        });
  }

  /** Returns a circle scan that begins a number of A-scans later on the same circle. */
  static OctScan begunLater(OctScan scan, int later) {
    int ascans = scan.size().ascans();
    ScanPath path = scan.path().orElseThrow();
    double[] x = new double[path.frames() * ascans];
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      x[i] = path.xMm(i / ascans, (i + later) % ascans);
      y[i] = path.yMm(i / ascans, (i + later) % ascans);
    }
    return copy(
        scan,
        Optional.of(ScanPath.ofPoints(path.frames(), ascans, x, y, path.frame())),
        (frame, into) -> {
          float[] picture = new float[into.length];
          scan.frames().read(frame, picture);
          for (int i = 0; i < into.length; i++) {
            into[i] = picture[i - i % ascans + (i + later) % ascans];
          }
        });
  }

  static void assertSame(BoundarySurface expected, BoundarySurface actual) {
    for (int f = 0; f < expected.frames(); f++) {
      for (int a = 0; a < expected.ascans(); a++) {
        assertEquals(expected.depthPx(f, a), actual.depthPx(f, a), 0f);
        assertEquals(expected.confidence(f, a), actual.confidence(f, a), 0f);
      }
    }
  }

  /** Returns the scan of the mirror image of the eye: mirrored frames, path and laterality. */
  static OctScan otherEye(OctScan scan) {
    OctScan mirrored = copy(scan, scan.path().map(ScanPath::mirrored), mirrored(scan).frames());
    return withLaterality(mirrored, mirrored.laterality().map(Laterality::other));
  }

  static void assertMirrored(BoundarySurface expected, BoundarySurface actual) {
    for (int f = 0; f < expected.frames(); f++) {
      for (int a = 0; a < expected.ascans(); a++) {
        int other = expected.ascans() - 1 - a;
        assertEquals(expected.depthPx(f, a), actual.depthPx(f, other), 0f);
        assertEquals(expected.confidence(f, a), actual.confidence(f, other), 0f);
      }
    }
  }

  /** Returns the mean distance in pixels between a surface and another seen in a mirror. */
  static double meanMirrorDistance(BoundarySurface surface, BoundarySurface mirrored) {
    double sum = 0;
    int n = 0;
    for (int f = 0; f < surface.frames(); f++) {
      for (int a = 0; a < surface.ascans(); a++) {
        double distance =
            Math.abs(surface.depthPx(f, a) - mirrored.depthPx(f, surface.ascans() - 1 - a));
        if (!Double.isNaN(distance)) {
          sum += distance;
          n++;
        }
      }
    }
    return sum / n;
  }

  private static OctScan copy(OctScan scan, Optional<ScanPath> path, FrameSource frames) {
    return new OctScan(
        scan.identity(),
        scan.document(),
        scan.laterality(),
        scan.size(),
        scan.axial(),
        path,
        scan.reference(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        frames);
  }
}
