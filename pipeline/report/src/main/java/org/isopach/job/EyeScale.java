package org.isopach.job;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.MapLattice;
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
    if (factor == 1) {
      return opening;
    }
    double[] radius = new double[opening.samples()];
    double[] height = new double[radius.length];
    boolean[] seen = new boolean[radius.length];
    for (int i = 0; i < radius.length; i++) {
      radius[i] = factor * opening.radiusMm(i);
      height[i] = opening.heightUm(i);
      seen[i] = opening.seen(i);
    }
    return DiscOpening.of(of(opening.centre()), opening.laterality(), radius, height, seen);
  }

  HeightMap of(HeightMap map) {
    if (factor == 1) {
      return map;
    }
    MapLattice lattice = map.lattice();
    float[] heights = new float[lattice.cells()];
    for (int i = 0; i < heights.length; i++) {
      heights[i] = map.heightUm(i / lattice.columns(), i % lattice.columns());
    }
    return new HeightMap(
        new MapLattice(
            lattice.rows(),
            lattice.columns(),
            factor * lattice.stepMm(),
            factor * lattice.firstXMm(),
            factor * lattice.firstYMm()),
        of(map.origin()),
        heights);
  }
}
