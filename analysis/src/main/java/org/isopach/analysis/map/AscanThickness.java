package org.isopach.analysis.map;

import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.layer.Layer;

/**
 * The thickness of a layer at each A-scan, with the A-scan's place in mm from the landmark. Index
 * {@code frame * ascans + ascan}; thickness in µm, NaN where there is none.
 */
final class AscanThickness {
  final int ascans;
  final double[] x;
  final double[] y;
  final double[] micrometres;

  private AscanThickness(int frames, int ascans) {
    this.ascans = ascans;
    this.x = new double[frames * ascans];
    this.y = new double[frames * ascans];
    this.micrometres = new double[frames * ascans];
  }

  static AscanThickness of(
      ScanPath path,
      AxialScale axial,
      BoundarySet boundaries,
      Layer layer,
      Landmark centre,
      double minimumConfidence) {
    BoundarySurface inner = boundaries.surface(layer.inner()).orElseThrow();
    BoundarySurface outer = boundaries.surface(layer.outer()).orElseThrow();
    AscanThickness thickness = new AscanThickness(path.frames(), path.ascans());
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 0; a < path.ascans(); a++) {
        int i = f * path.ascans() + a;
        thickness.x[i] = path.xMm(f, a) - centre.point().xMm();
        thickness.y[i] = path.yMm(f, a) - centre.point().yMm();
        boolean sure =
            inner.confidence(f, a) >= minimumConfidence
                && outer.confidence(f, a) >= minimumConfidence;
        double pixels = (double) outer.depthPx(f, a) - inner.depthPx(f, a);
        thickness.micrometres[i] = sure ? axial.toMicrometres(pixels) : Double.NaN;
      }
    }
    return thickness;
  }

  /** Returns values given at the A-scans of a path; NaN where there is none. */
  static AscanThickness of(ScanPath path, FundusPoint origin, double[] values) {
    AscanThickness given = new AscanThickness(path.frames(), path.ascans());
    for (int i = 0; i < values.length; i++) {
      FundusPoint at = path.point(i / path.ascans(), i % path.ascans()).minus(origin);
      given.x[i] = at.xMm();
      given.y[i] = at.yMm();
      given.micrometres[i] = values[i];
    }
    return given;
  }

  /** Returns whether any A-scan of a frame has a thickness. */
  boolean anyIn(int frame) {
    for (int a = 0; a < ascans; a++) {
      if (!Double.isNaN(micrometres[frame * ascans + a])) {
        return true;
      }
    }
    return false;
  }
}
