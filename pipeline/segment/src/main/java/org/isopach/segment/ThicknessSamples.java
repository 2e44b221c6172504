package org.isopach.segment;

import java.util.Arrays;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySurface;

/** Thickness at scattered places: short runs of A-scans averaged, in µm, places in mm. */
final class ThicknessSamples {
  private static final float LEAST_CONFIDENCE = 0.2f;

  private final int count;
  private final double[] xMm;
  private final double[] yMm;
  private final double[] micrometres;

  private ThicknessSamples(int count, double[] xMm, double[] yMm, double[] micrometres) {
    this.count = count;
    this.xMm = xMm;
    this.yMm = yMm;
    this.micrometres = micrometres;
  }

  /**
   * Returns the samples between two surfaces.
   *
   * @param spacingMm length of the runs that are averaged
   */
  static ThicknessSamples between(
      BoundarySurface inner,
      BoundarySurface outer,
      ScanPath path,
      AxialScale axial,
      double spacingMm) {
    int run = (int) Math.max(1, Math.round(spacingMm / path.ascanSpacingMm()));
    int most = path.frames() * (path.ascans() / run);
    double[] x = new double[most];
    double[] y = new double[most];
    double[] t = new double[most];
    int count = 0;
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 0; a + run <= path.ascans(); a += run) {
        double sum = 0;
        int n = 0;
        for (int j = a; j < a + run; j++) {
          double pixels = outer.depthPx(f, j) - inner.depthPx(f, j);
          float sure = Math.min(outer.confidence(f, j), inner.confidence(f, j));
          if (sure >= LEAST_CONFIDENCE && !Double.isNaN(pixels)) {
            sum += pixels;
            n++;
          }
        }
        if (2 * n > run) {
          FundusPoint first = path.point(f, a);
          FundusPoint last = path.point(f, a + run - 1);
          x[count] = (first.xMm() + last.xMm()) / 2;
          y[count] = (first.yMm() + last.yMm()) / 2;
          t[count] = axial.toMicrometres(sum / n);
          count++;
        }
      }
    }
    return new ThicknessSamples(count, x, y, t);
  }

  /** Returns the samples within a distance of a point. */
  ThicknessSamples near(FundusPoint point, double reachMm) {
    double[] x = new double[count];
    double[] y = new double[count];
    double[] t = new double[count];
    int n = 0;
    for (int i = 0; i < count; i++) {
      if (Math.hypot(xMm[i] - point.xMm(), yMm[i] - point.yMm()) <= reachMm) {
        x[n] = xMm[i];
        y[n] = yMm[i];
        t[n] = micrometres[i];
        n++;
      }
    }
    return new ThicknessSamples(n, Arrays.copyOf(x, n), Arrays.copyOf(y, n), Arrays.copyOf(t, n));
  }

  int count() {
    return count;
  }

  double xMm(int sample) {
    return xMm[sample];
  }

  double yMm(int sample) {
    return yMm[sample];
  }

  double micrometres(int sample) {
    return micrometres[sample];
  }
}
