package org.isopach.job;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.HeightMap;

/**
 * Turns the lengths of a scan into those of the eye; depths stay.
 *
 * @param factor what lengths on the fundus are multiplied with, positive
 */
record EyeScale(double factor) {
  EyeScale {
    if (!(factor > 0) || Double.isInfinite(factor)) {
      throw new IllegalArgumentException("factor must be finite and positive, was " + factor);
    }
  }

  ScanPath of(ScanPath path) {
    return factor == 1 ? path : path.scaledBy(factor);
  }

  FundusPoint of(FundusPoint point) {
    return new FundusPoint(factor * point.xMm(), factor * point.yMm());
  }

  DiscOpening of(DiscOpening opening) {
    return factor == 1 ? opening : opening.scaledBy(factor);
  }

  HeightMap of(HeightMap map) {
    return factor == 1 ? map : map.scaledBy(factor);
  }
}
