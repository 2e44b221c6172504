package org.isopach.analysis.asymmetry;

import java.util.Objects;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;

/**
 * Right eye minus left eye in µm, seen as a right eye: the left one is mirrored. Immutable.
 *
 * <p>Shape {@code (rows, columns)} of the lattice, whose (0, 0) is the fovea of both; x grows
 * towards the nose. NaN where either eye has no value.
 */
public final class AsymmetryMap {
  private final ThicknessMap right;
  private final ThicknessMap left;

  /**
   * @param right of the right eye
   * @param left of the left eye, as it lies, not mirrored
   * @throws IllegalArgumentException when eyes, layers or lattices do not fit, or the lattice is
   *     not its own mirror image
   */
  AsymmetryMap(ThicknessMap right, ThicknessMap left) {
    this.right = Objects.requireNonNull(right, "right");
    this.left = Objects.requireNonNull(left, "left");
    if (right.laterality() != Laterality.RIGHT || left.laterality() != Laterality.LEFT) {
      throw new IllegalArgumentException("needs a right and a left eye");
    }
    if (!right.layer().equals(left.layer()) || !right.lattice().equals(left.lattice())) {
      throw new IllegalArgumentException("both eyes must have one layer and one lattice");
    }
    MapLattice lattice = right.lattice();
    if (lattice.xMm(0) != -lattice.xMm(lattice.columns() - 1)) {
      throw new IllegalArgumentException("the lattice must reach as far to either side");
    }
  }

  /** Returns the lattice; (0, 0) is the fovea of both eyes. */
  public MapLattice lattice() {
    return right.lattice();
  }

  /** Returns the right eye's map. */
  public ThicknessMap right() {
    return right;
  }

  /** Returns the left eye's map, as it lies, not mirrored. */
  public ThicknessMap left() {
    return left;
  }

  /** Returns right minus left in µm of a cell, NaN where either has no value. */
  public float micrometres(int row, int column) {
    return right.micrometres(row, column) - left.micrometres(row, mirrored(column));
  }

  int mirrored(int column) {
    return lattice().columns() - 1 - column;
  }
}
