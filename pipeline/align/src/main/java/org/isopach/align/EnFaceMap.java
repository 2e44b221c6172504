package org.isopach.align;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.MapLattice;

/**
 * A projection on a lattice of mm, as registration looks at it. Immutable.
 *
 * <p>Between frames the values are interpolated as thickness maps are; NaN outside the scan.
 */
public final class EnFaceMap {
  private final ShadowMap map;

  private EnFaceMap(ShadowMap map) {
    this.map = map;
  }

  /** Returns a projection's values, not smoothed, on square cells round the middle of the scan. */
  public static EnFaceMap of(EnFace face) {
    double[] values = new double[face.path().frames() * face.path().ascans()];
    for (int i = 0; i < values.length; i++) {
      values[i] = face.shadow(i / face.path().ascans(), i % face.path().ascans());
    }
    return new EnFaceMap(ShadowMap.of(face.path(), values));
  }

  /** Returns the cells. */
  public MapLattice lattice() {
    return map.lattice();
  }

  /** Returns the lattice's (0, 0) in the coordinates of the scan's path. */
  public FundusPoint origin() {
    return map.origin();
  }

  /** Returns how much darker a cell is than its surroundings, standard deviations; NaN if none. */
  public float shadow(int row, int column) {
    return map.cell(row, column);
  }
}
