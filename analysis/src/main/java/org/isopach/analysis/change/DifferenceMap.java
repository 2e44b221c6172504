package org.isopach.analysis.change;

import java.util.Objects;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;

/**
 * Follow-up minus baseline on one lattice, in µm. Immutable.
 *
 * <p>Shape {@code (rows, columns)} of the lattice; positive where the layer grew thicker; NaN where
 * either visit has no value.
 */
public final class DifferenceMap {
  private final ThicknessMap baseline;
  private final ThicknessMap followUp;

  /**
   * @throws IllegalArgumentException when the lattices differ
   */
  DifferenceMap(ThicknessMap baseline, ThicknessMap followUp) {
    this.baseline = Objects.requireNonNull(baseline, "baseline");
    this.followUp = Objects.requireNonNull(followUp, "followUp");
    if (!baseline.lattice().equals(followUp.lattice())) {
      throw new IllegalArgumentException("the maps of two visits must lie on one lattice");
    }
  }

  /** Returns the lattice; (0, 0) is the landmark of both visits. */
  public MapLattice lattice() {
    return baseline.lattice();
  }

  /** Returns the map of the earlier visit. */
  public ThicknessMap baseline() {
    return baseline;
  }

  /** Returns the map of the later visit. */
  public ThicknessMap followUp() {
    return followUp;
  }

  /** Returns the change in µm of a cell, NaN where either visit has no value. */
  public float micrometres(int row, int column) {
    return followUp.micrometres(row, column) - baseline.micrometres(row, column);
  }

  /** Returns the change of all cells, index {@code row * columns + column}. */
  float[] values() {
    return filled((row, column) -> micrometres(row, column));
  }

  /** Returns the baseline where both visits have a value, NaN elsewhere. */
  float[] baselineValues() {
    return filled(
        (row, column) ->
            Float.isNaN(followUp.micrometres(row, column))
                ? Float.NaN
                : baseline.micrometres(row, column));
  }

  private interface Cell {
    float at(int row, int column);
  }

  private float[] filled(Cell cell) {
    float[] values = new float[lattice().cells()];
    for (int i = 0; i < values.length; i++) {
      values[i] = cell.at(i / lattice().columns(), i % lattice().columns());
    }
    return values;
  }

  /** Returns the share of cells where both visits have a value, from 0 to 1. */
  public double coveredFraction() {
    int found = 0;
    for (int row = 0; row < lattice().rows(); row++) {
      for (int column = 0; column < lattice().columns(); column++) {
        if (!Float.isNaN(micrometres(row, column))) {
          found++;
        }
      }
    }
    return (double) found / lattice().cells();
  }
}
