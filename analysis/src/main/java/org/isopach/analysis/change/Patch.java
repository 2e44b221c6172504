package org.isopach.analysis.change;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.isopach.analysis.map.MapLattice;

/**
 * Cells of one sign that hang together by their sides.
 *
 * @param sign 1 for thicker, -1 for thinner
 * @param cells index {@code row * columns + column}, in the order found
 */
record Patch(int sign, List<Integer> cells) {
  private static final double UM_PER_MM = 1000;

  Patch {
    cells = List.copyOf(cells);
  }

  /** Returns the patch that a cell is part of, and marks its cells as taken. */
  static Patch from(int start, int[] signs, boolean[] taken, int columns) {
    List<Integer> cells = new ArrayList<>();
    Deque<Integer> open = new ArrayDeque<>();
    open.add(start);
    taken[start] = true;
    while (!open.isEmpty()) {
      int cell = open.remove();
      cells.add(cell);
      int column = cell % columns;
      int[] beside = {
        cell - columns,
        column > 0 ? cell - 1 : -1,
        column + 1 < columns ? cell + 1 : -1,
        cell + columns
      };
      for (int next : beside) {
        if (next >= 0 && next < signs.length && !taken[next] && signs[next] == signs[start]) {
          taken[next] = true;
          open.add(next);
        }
      }
    }
    return new Patch(signs[start], cells);
  }

  ChangeRegion region(int number, DifferenceMap map, float[] smooth) {
    MapLattice lattice = map.lattice();
    double sum = 0;
    double x = 0;
    double y = 0;
    double peak = 0;
    for (int cell : cells) {
      int row = cell / lattice.columns();
      int column = cell % lattice.columns();
      sum += map.micrometres(row, column);
      x += lattice.xMm(column);
      y += lattice.yMm(row);
      peak = sign * smooth[cell] > sign * peak ? smooth[cell] : peak;
    }
    double area = cells.size() * lattice.cellAreaMm2();
    double mean = sum / cells.size();
    return new ChangeRegion(
        number,
        sign > 0,
        area,
        mean,
        peak,
        map.baseline().laterality().nasalSign() * x / cells.size(),
        -y / cells.size(),
        mean * area / UM_PER_MM);
  }
}
