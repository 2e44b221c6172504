package org.isopach.report.picture;

import java.awt.geom.Rectangle2D;
import java.util.OptionalDouble;
import org.isopach.analysis.geometry.ScanPath;

/**
 * Where a frame's pixels lie on a sheet. The frame fills the width; its depth is stretched by a
 * whole or half number so that it also fills much of the height.
 */
final class FrameWindow {
  static final int LEFT = 46;
  static final int TOP = 112;
  static final int WIDTH = 910;
  private static final int MOST_HEIGHT = 720;
  private static final int HEIGHT_WITHOUT_SCALE = 640;
  private static final double[] STRETCHES = {4, 3, 2, 1.5, 1};

  private final int ascans;
  private final int depths;
  private final double height;
  private final double micrometresPerPixel;
  private final OptionalDouble lengthMm;
  private final double stretch;

  private FrameWindow(
      int ascans,
      int depths,
      double micrometresPerPixel,
      OptionalDouble lengthMm,
      double stretch,
      double height) {
    this.ascans = ascans;
    this.depths = depths;
    this.micrometresPerPixel = micrometresPerPixel;
    this.lengthMm = lengthMm;
    this.stretch = stretch;
    this.height = height;
  }

  static FrameWindow of(FrameScene scene) {
    int ascans = scene.scan().size().ascans();
    int depths = scene.scan().size().depths();
    double axial = scene.scan().axial().micrometresPerPixel();
    if (scene.path().isEmpty()) {
      return new FrameWindow(
          ascans, depths, axial, OptionalDouble.empty(), 1, HEIGHT_WITHOUT_SCALE);
    }
    double length = lengthMm(scene.path().get(), scene.frame());
    double trueHeight = depths * axial / 1000 * (WIDTH / length);
    double stretch = STRETCHES[STRETCHES.length - 1];
    for (double candidate : STRETCHES) {
      if (candidate * trueHeight <= MOST_HEIGHT) {
        stretch = candidate;
        break;
      }
    }
    double height = Math.min(MOST_HEIGHT, stretch * trueHeight);
    return new FrameWindow(
        ascans, depths, axial, OptionalDouble.of(length), height / trueHeight, height);
  }

  /** The length of the frame's picture: from the outer edge of the first A-scan to the last's. */
  private static double lengthMm(ScanPath path, int frame) {
    double length = 0;
    for (int a = 1; a < path.ascans(); a++) {
      length += path.point(frame, a).distanceMm(path.point(frame, a - 1));
    }
    return length * path.ascans() / (path.ascans() - 1);
  }

  Rectangle2D bounds() {
    return new Rectangle2D.Double(LEFT, TOP, WIDTH, height);
  }

  /** Returns the x of the centre of an A-scan. */
  double x(int ascan) {
    return edgeX(ascan + 0.5);
  }

  /** Returns the y of a depth in pixels, 0 at the centre of the first. */
  double y(double depthPx) {
    return edgeY(depthPx + 0.5);
  }

  /** Returns the x of a place counted in A-scans from the frame's left edge. */
  double edgeX(double ascans0) {
    return LEFT + ascans0 / ascans * WIDTH;
  }

  /** Returns the y of a place counted in pixels from the frame's upper edge. */
  double edgeY(double pixels) {
    return TOP + pixels / depths * height;
  }

  /** Returns the length of a millimetre along the frame, empty when not known. */
  OptionalDouble pixelsPerMm() {
    return lengthMm.isPresent()
        ? OptionalDouble.of(WIDTH / lengthMm.getAsDouble())
        : OptionalDouble.empty();
  }

  /** Returns the length of a µm of depth. */
  double pixelsPerMicrometre() {
    return height / (depths * micrometresPerPixel);
  }

  /** Returns how much longer depth is drawn than the same way along the frame. */
  double stretch() {
    return stretch;
  }
}
