package org.isopach.analysis.nerve;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;

/**
 * The circle that fits the A-scans of a frame best: least squares of {@code x² + y² + dx + ey + f}
 * (algebraic, which for a full turn has no bias).
 *
 * @param centre in the path's coordinates
 * @param radiusMm mm
 * @param worstMm the greatest distance of an A-scan from the circle, mm
 */
record CircleFit(FundusPoint centre, double radiusMm, double worstMm) {
  static CircleFit of(ScanPath path, int frame) {
    int n = path.ascans();
    double mx = 0;
    double my = 0;
    for (int a = 0; a < n; a++) {
      mx += path.xMm(frame, a) / n;
      my += path.yMm(frame, a) / n;
    }
    double xx = 0;
    double xy = 0;
    double yy = 0;
    double xz = 0;
    double yz = 0;
    double zz = 0;
    for (int a = 0; a < n; a++) {
      double x = path.xMm(frame, a) - mx;
      double y = path.yMm(frame, a) - my;
      double z = x * x + y * y;
      xx += x * x;
      xy += x * y;
      yy += y * y;
      xz += x * z;
      yz += y * z;
      zz += z;
    }
    double determinant = 2 * (xx * yy - xy * xy);
    double cx = (xz * yy - yz * xy) / determinant;
    double cy = (yz * xx - xz * xy) / determinant;
    FundusPoint centre = new FundusPoint(mx + cx, my + cy);
    double radius = Math.sqrt(zz / n + cx * cx + cy * cy);
    double worst = 0;
    for (int a = 0; a < n; a++) {
      worst = Math.max(worst, Math.abs(path.point(frame, a).distanceMm(centre) - radius));
    }
    return new CircleFit(centre, radius, determinant > 0 ? worst : Double.POSITIVE_INFINITY);
  }
}
