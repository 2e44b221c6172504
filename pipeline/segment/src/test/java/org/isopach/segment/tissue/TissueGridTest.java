package org.isopach.segment.tissue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.scan.ScanSize;
import org.junit.jupiter.api.Test;

/** Cells of about 8 by 23 µm whatever the spacings; the places of their centres. */
class TissueGridTest {
  private static TissueGrid grid(int ascans, int depths, double axial, double across) {
    return TissueGrid.of(
        new ScanSize(1, ascans, depths), AxialScale.ofMicrometresPerPixel(axial), across);
  }

  @Test
  void cellsAreOfAboutOneSizeAtAnySpacing() {
    assertEquals(new TissueGrid(2, 2, 256, 248), grid(512, 496, 3.87, 11.7));
    assertEquals(new TissueGrid(4, 4, 256, 256), grid(1024, 1024, 1.95, 5.87));
    assertEquals(new TissueGrid(4, 2, 256, 248), grid(1024, 496, 3.87, 5.87));
    assertEquals(new TissueGrid(1, 4, 250, 223), grid(250, 895, 2.0, 24));
    assertEquals(new TissueGrid(1, 1, 100, 90), grid(100, 90, 38, 120));
  }

  @Test
  void depthAndRowAreInverse() {
    for (int deep = 1; deep <= 9; deep++) {
      TissueGrid grid = new TissueGrid(3, deep, 40, 50);
      for (double depth = -4; depth < 460; depth += 0.37) {
        assertEquals(depth, grid.depthPx(grid.row(depth)), 1e-9);
      }
    }
  }

  @Test
  void centreOfARowIsTheMeanOfItsPixelCentres() {
    for (int deep = 1; deep <= 9; deep++) {
      TissueGrid grid = new TissueGrid(3, deep, 40, 50);
      for (int row = 0; row < 50; row++) {
        double sum = 0;
        for (int d = row * deep; d < (row + 1) * deep; d++) {
          sum += d;
        }
        assertEquals(sum / deep, grid.depthPx(row), 1e-9);
      }
    }
  }

  @Test
  void centreOfAColumnIsTheMeanOfItsAscans() {
    TissueGrid grid = new TissueGrid(5, 2, 40, 50);
    for (int column = 0; column < 40; column++) {
      assertEquals(column, grid.column(5 * column + 2), 1e-9);
    }
    assertEquals(0, grid.column(0), 0);
    assertEquals(39, grid.column(204), 0);
  }

  @Test
  void cellsLieWithinTheFrame() {
    for (int ascans : new int[] {1, 2, 3, 7, 100}) {
      for (int depths : new int[] {1, 2, 9, 300}) {
        for (double spacing : new double[] {0.001, 0.01, 0.5, 4, 400}) {
          TissueGrid grid = grid(ascans, depths, spacing, spacing);
          assertTrue(grid.columns() * grid.ascansPerCell() <= ascans, grid::toString);
          assertTrue(grid.rows() * grid.depthsPerCell() <= depths, grid::toString);
        }
      }
    }
  }
}
