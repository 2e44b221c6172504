package org.isopach.analysis.change;

import java.util.Objects;
import org.isopach.analysis.map.MapLattice;

/** Which cells of a lattice belong to which {@link ChangeRegion}. Immutable. */
public final class ChangeMask {
  private final MapLattice lattice;
  private final int[] numbers;

  ChangeMask(MapLattice lattice, int[] numbers) {
    this.lattice = Objects.requireNonNull(lattice, "lattice");
    this.numbers = numbers.clone();
  }

  /** Returns a mask without a region. */
  public static ChangeMask empty(MapLattice lattice) {
    return new ChangeMask(lattice, new int[lattice.cells()]);
  }

  /** Returns the lattice. */
  public MapLattice lattice() {
    return lattice;
  }

  /** Returns the number of the region a cell belongs to, 0 for none. */
  public int region(int row, int column) {
    Objects.checkIndex(row, lattice.rows());
    Objects.checkIndex(column, lattice.columns());
    return numbers[row * lattice.columns() + column];
  }
}
