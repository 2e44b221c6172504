package org.isopach.analysis.grid;

import java.util.Arrays;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.MapLattice;

/**
 * Which cells of a lattice lie in a sector, and with how much of their area.
 *
 * <p>Cells are listed row by row from the top and in each row from temporal to nasal, so that sums
 * over an eye and over its mirror image in the other eye add the same numbers in the same order.
 */
final class SectorWeights {
  private static final double ROUNDING = 1e-9;

  private final Sector sector;
  private final double denominator;
  private final int[] cells;
  private final double[] areas;

  private SectorWeights(Sector sector, int[] cells, double[] areas) {
    this.sector = sector;
    this.cells = cells;
    this.areas = areas;
    double onLattice = 0;
    for (double area : areas) {
      onLattice += area;
    }
    boolean enclosed = onLattice >= sector.areaMm2() * (1 - ROUNDING);
    this.denominator = enclosed ? onLattice : sector.areaMm2();
  }

  static SectorWeights of(Sector sector, MapLattice lattice, Laterality laterality) {
    CellOverlap overlap = new CellOverlap(sector);
    int[] cells = new int[lattice.cells()];
    double[] areas = new double[lattice.cells()];
    int sign = laterality.nasalSign();
    int found = 0;
    for (int row = 0; row < lattice.rows(); row++) {
      for (int step = 0; step < lattice.columns(); step++) {
        int column = sign > 0 ? step : lattice.columns() - 1 - step;
        double area =
            overlap.areaMm2(sign * lattice.xMm(column), -lattice.yMm(row), lattice.stepMm());
        if (area > 0) {
          cells[found] = row * lattice.columns() + column;
          areas[found++] = area;
        }
      }
    }
    return new SectorWeights(sector, Arrays.copyOf(cells, found), Arrays.copyOf(areas, found));
  }

  Sector sector() {
    return sector;
  }

  /** Returns the number of cells that touch the sector. */
  int size() {
    return cells.length;
  }

  /** Returns the index {@code row * columns + column} of a cell. */
  int cell(int index) {
    return cells[index];
  }

  /** Returns the area in mm² of the part of a cell that lies in the sector. */
  double areaMm2(int index) {
    return areas[index];
  }

  /** Returns an area in mm² as a share of the sector, from 0 to 1; exactly 1 for all cells. */
  double fraction(double areaMm2) {
    return Math.min(1, areaMm2 / denominator);
  }
}
