package org.isopach.analysis.nerve;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.testing.Surface;

/** Invented openings and inner surfaces. */
final class Openings {
  private Openings() {}

  /** Returns an opening that was seen all round, of a radius and a height by angle in degrees. */
  static DiscOpening of(
      FundusPoint about, Laterality eye, DoubleUnaryOperator radius, DoubleUnaryOperator height) {
    boolean[] seen = new boolean[DiscOpening.SAMPLES];
    Arrays.fill(seen, true);
    return of(about, eye, radius, height, seen);
  }

  static DiscOpening of(
      FundusPoint about,
      Laterality eye,
      DoubleUnaryOperator radius,
      DoubleUnaryOperator height,
      boolean[] seen) {
    double[] radii = new double[seen.length];
    double[] heights = new double[seen.length];
    for (int i = 0; i < radii.length; i++) {
      radii[i] = radius.applyAsDouble(i * 360.0 / radii.length);
      heights[i] = height.applyAsDouble(i * 360.0 / radii.length);
    }
    return DiscOpening.of(about, eye, radii, heights, seen);
  }

  /** Returns heights of a function of mm from the origin. */
  static HeightMap surface(FundusPoint origin, double stepMm, Surface surface) {
    MapLattice lattice = MapLattice.centred(2.0, stepMm);
    float[] heights = new float[lattice.cells()];
    for (int i = 0; i < heights.length; i++) {
      heights[i] =
          (float)
              surface.micrometres(
                  lattice.xMm(i % lattice.columns()), lattice.yMm(i / lattice.columns()));
    }
    return new HeightMap(lattice, origin, heights);
  }
}
