package org.isopach.job;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.scan.OctScan;

/**
 * Whether two scans were made by one pattern, wherever it was laid and however the eye was turned.
 */
final class ScanLikeness {
  private static final double SAME_SHARE = 0.05;
  private static final double SAME_MM = 0.05;

  /** Eyes turn by some degrees; from here on, frames run another way. Cosine of 30°. */
  private static final double SAME_WAY = 0.866;

  private ScanLikeness() {}

  /** Returns whether figure, numbers and extent agree; scans without a path are like none. */
  static boolean alike(OctScan a, OctScan b) {
    return a.size().frames() == b.size().frames()
        && a.size().ascans() == b.size().ascans()
        && a.path().isPresent()
        && b.path().isPresent()
        && alike(a.path().get(), b.path().get());
  }

  private static boolean alike(ScanPath a, ScanPath b) {
    FundusPoint alongA = alongFrame(a);
    FundusPoint alongB = alongFrame(b);
    return a.pattern() == b.pattern()
        && same(length(alongA), length(alongB))
        && same(length(acrossFrames(a)), length(acrossFrames(b)))
        && (a.pattern() != ScanPattern.RASTER || sameWay(alongA, alongB));
  }

  private static FundusPoint alongFrame(ScanPath path) {
    return path.point(0, path.ascans() - 1).minus(path.point(0, 0));
  }

  private static FundusPoint acrossFrames(ScanPath path) {
    return path.point(path.frames() - 1, 0).minus(path.point(0, 0));
  }

  private static boolean same(double a, double b) {
    return Math.abs(a - b) <= SAME_MM + SAME_SHARE * Math.max(a, b);
  }

  private static boolean sameWay(FundusPoint a, FundusPoint b) {
    double product = a.xMm() * b.xMm() + a.yMm() * b.yMm();
    return Math.abs(product) >= SAME_WAY * length(a) * length(b);
  }

  private static double length(FundusPoint way) {
    return Math.hypot(way.xMm(), way.yMm());
  }
}
