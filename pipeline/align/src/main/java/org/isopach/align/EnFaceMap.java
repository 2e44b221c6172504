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

  /**
   * Returns a projection on square cells round the middle of the scan, smoothed as registration
   * smooths it to find how each frame moved.
   */
  public static EnFaceMap of(EnFace face) {
    return new EnFaceMap(new ShadowPicture(face).map(ShadowPicture.Fineness.FRAMES));
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
