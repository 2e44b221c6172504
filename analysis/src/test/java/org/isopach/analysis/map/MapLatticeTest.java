package org.isopach.analysis.map;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MapLatticeTest {
  @ParameterizedTest
  @CsvSource({"3.0, 0.02, 301", "3.0, 0.05, 121", "1.0, 0.3, 9", "0.1, 1, 3"})
  void putsACellOnTheLandmarkAndMirrorsExactly(double halfWidth, double step, int cells) {
    MapLattice lattice = MapLattice.centred(halfWidth, step);

    assertEquals(cells, lattice.columns());
    assertEquals(cells, lattice.rows());
    for (int c = 0; c < cells; c++) {
      assertEquals(0.0, lattice.xMm(c) + lattice.xMm(cells - 1 - c));
      assertEquals(0.0, lattice.yMm(c) + lattice.yMm(cells - 1 - c));
    }
    assertEquals(step, lattice.xMm(cells / 2 + 1), 1e-15);
  }

  @Test
  void countsFromTheFirstColumnAndRow() {
    MapLattice lattice = new MapLattice(4, 7, 0.1, -0.25, 1.5);

    assertEquals(-0.25, lattice.xMm(0), 1e-15);
    assertEquals(0.35, lattice.xMm(6), 1e-15);
    assertEquals(1.5, lattice.yMm(0), 1e-15);
    assertEquals(1.8, lattice.yMm(3), 1e-15);
    assertEquals(28, lattice.cells());
    assertEquals(0.01, lattice.cellAreaMm2(), 1e-17);
  }

  @ParameterizedTest
  @CsvSource({"0, 3, 0.1", "3, 0, 0.1", "3, 3, 0", "3, 3, -1", "3, 3, NaN", "3, 3, Infinity"})
  void refusesLatticesWithoutCells(int rows, int columns, double step) {
    assertThrows(IllegalArgumentException.class, () -> new MapLattice(rows, columns, step, 0, 0));
  }
}
