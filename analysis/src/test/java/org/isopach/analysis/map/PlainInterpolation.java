package org.isopach.analysis.map;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.testing.Scans;

/**
 * The definition of the interpolation, point by point and slowly: every quadrilateral of frames in
 * spatial order is searched, each of its four triangles solved by Cramer's rule.
 */
final class PlainInterpolation {
  private final ScanPath path;
  private final BoundarySet boundaries;
  private final FundusPoint centre;

  PlainInterpolation(ScanPath path, BoundarySet boundaries, FundusPoint centre) {
    this.path = path;
    this.boundaries = boundaries;
    this.centre = centre;
  }

  /** Returns µm at a place in mm from the centre, NaN outside. */
  double at(double xMm, double yMm) {
    double sum = 0;
    int hits = 0;
    for (int f = 0; f + 1 < path.frames(); f++) {
      for (int a = 0; a + 1 < path.ascans(); a++) {
        double[][] corners = {
          corner(f, a), corner(f, a + 1), corner(f + 1, a + 1), corner(f + 1, a)
        };
        double[] mean = new double[3];
        for (double[] corner : corners) {
          for (int k = 0; k < 3; k++) {
            mean[k] += corner[k] / 4;
          }
        }
        for (int k = 0; k < 4; k++) {
          double value = triangle(corners[k], corners[(k + 1) % 4], mean, xMm, yMm);
          if (!Double.isNaN(value)) {
            sum += value;
            hits++;
          }
        }
      }
    }
    return hits == 0 ? Double.NaN : sum / hits;
  }

  private double[] corner(int f, int a) {
    FundusPoint at = path.point(f, a).minus(centre);
    double inner = boundaries.surface(Layer.ILM_BM.inner()).orElseThrow().depthPx(f, a);
    double outer = boundaries.surface(Layer.ILM_BM.outer()).orElseThrow().depthPx(f, a);
    return new double[] {at.xMm(), at.yMm(), (outer - inner) * Scans.MICROMETRES_PER_PIXEL};
  }

  private static double triangle(double[] p, double[] q, double[] r, double x, double y) {
    double det = (q[0] - p[0]) * (r[1] - p[1]) - (r[0] - p[0]) * (q[1] - p[1]);
    double s = ((x - p[0]) * (r[1] - p[1]) - (r[0] - p[0]) * (y - p[1])) / det;
    double t = ((q[0] - p[0]) * (y - p[1]) - (x - p[0]) * (q[1] - p[1])) / det;
    boolean inside = s >= 0 && t >= 0 && s + t <= 1;
    return inside ? p[2] + s * (q[2] - p[2]) + t * (r[2] - p[2]) : Double.NaN;
  }
}
