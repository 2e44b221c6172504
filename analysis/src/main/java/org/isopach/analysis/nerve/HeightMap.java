package org.isopach.analysis.nerve;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.MapLattice;

/**
 * How high a surface lies along the A-scans, on a lattice of mm. Immutable.
 *
 * <p>Heights are in µm, positive towards the vitreous, from a zero that the whole scan shares with
 * its {@link DiscOpening}. NaN means that there is none.
 */
public final class HeightMap {
  private final MapLattice lattice;
  private final FundusPoint origin;
  private final float[] heightUm;
  private final LatticeSampler sampler;

  /**
   * Makes a map from a copy of its values.
   *
   * @param lattice cells in mm from the origin
   * @param origin the lattice's (0, 0), in the coordinates of the scan's path
   * @param heightUm µm, index {@code row * columns + column}, NaN where none
   * @throws IllegalArgumentException when the length does not fit or a value is infinite
   */
  public HeightMap(MapLattice lattice, FundusPoint origin, float[] heightUm) {
    this.lattice = Objects.requireNonNull(lattice, "lattice");
    this.origin = Objects.requireNonNull(origin, "origin");
    if (heightUm.length != lattice.cells()) {
      throw new IllegalArgumentException(
          "expected " + lattice.cells() + " values, had " + heightUm.length);
    }
    for (float value : heightUm) {
      if (Float.isInfinite(value)) {
        throw new IllegalArgumentException("a height must not be infinite");
      }
    }
    this.heightUm = heightUm.clone();
    this.sampler = new LatticeSampler(lattice, this::heightUm);
  }

  /** Returns the lattice. */
  public MapLattice lattice() {
    return lattice;
  }

  /** Returns the lattice's (0, 0), in the coordinates of the scan's path. */
  public FundusPoint origin() {
    return origin;
  }

  /** Returns the height in µm of a cell, NaN where there is none. */
  public float heightUm(int row, int column) {
    Objects.checkIndex(row, lattice.rows());
    Objects.checkIndex(column, lattice.columns());
    return heightUm[row * lattice.columns() + column];
  }

  /**
   * Returns the height in µm at a place in the coordinates of the scan's path: bilinear between the
   * centres of cells, NaN where one of them has none or the place lies beyond the outermost.
   */
  public double atUm(FundusPoint point) {
    return sampler.at(point.xMm() - origin.xMm(), point.yMm() - origin.yMm());
  }

  /**
   * Returns this map with every length on the fundus multiplied, the origin of the coordinates kept
   * in place; heights stay.
   *
   * @param factor finite and positive
   */
  public HeightMap scaledBy(double factor) {
    MapLattice stretched =
        new MapLattice(
            lattice.rows(),
            lattice.columns(),
            factor * lattice.stepMm(),
            factor * lattice.firstXMm(),
            factor * lattice.firstYMm());
    FundusPoint moved = new FundusPoint(factor * origin.xMm(), factor * origin.yMm());
    return new HeightMap(stretched, moved, heightUm);
  }
}
