package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMap;

/**
 * What it costs to put a boundary before a row of a frame: the expected number of cells that would
 * then lie on its wrong side. Goes from boundary to boundary, outwards; one instance a thread.
 *
 * <p>Every tissue lies inside or outside of a boundary, or says nothing about it: fluid inside the
 * retina may lie on either side of the boundaries between the inner layers. What lies inside of a
 * boundary lies inside of all later ones, so that, at one stiffness, cheapest paths never cross
 * (the minima of nested energies are nested).
 */
final class LayerCosts {
  private static final Tissue[] TISSUES = Tissue.values();

  private final TissueMap map;
  private final int columns;
  private final int[] first;
  private final int rows;
  private final float[] sides;
  private final float[] balance;
  private Boundary current;

  /**
   * Makes costs for a band of rows of a map. What lies above the band or the map counts as inside,
   * what lies below as outside of every boundary.
   *
   * @param first first row of each column; may lie outside of the map
   * @param rows rows of each column
   */
  LayerCosts(TissueMap map, int[] first, int rows) {
    this.map = map;
    this.columns = map.columns();
    this.first = first.clone();
    this.rows = rows;
    this.sides = new float[columns * rows];
    this.balance = new float[columns * (rows + 1)];
    for (int c = 0; c < columns; c++) {
      for (int r = 0; r < rows; r++) {
        int row = first[c] + r;
        sides[c * rows + r] = row < 0 ? -1 : row >= map.rows() ? 1 : 0;
      }
    }
  }

  /** Returns costs for all rows of a map. */
  static LayerCosts whole(TissueMap map) {
    return new LayerCosts(map, new int[map.columns()], map.rows());
  }

  /** Goes to a boundary. */
  void goTo(Boundary boundary) {
    for (Tissue tissue : TISSUES) {
      int before = current == null ? 0 : side(current, tissue);
      int change = side(boundary, tissue) - before;
      if (change != 0) {
        map.add(tissue, change, first, rows, sides);
      }
    }
    current = boundary;
    for (int c = 0; c < columns; c++) {
      int at = c * (rows + 1);
      float sum = 0;
      for (int r = 0; r < rows; r++) {
        sum += sides[c * rows + r];
        balance[at + r + 1] = sum;
      }
    }
  }

  /**
   * Returns on which side of a boundary a tissue lies: -1 inside, nearer to the vitreous; 1
   * outside; 0 on either.
   */
  static int side(Boundary boundary, Tissue tissue) {
    return switch (tissue) {
      case VITREOUS -> -1;
      case INTRARETINAL_FLUID -> between(boundary, Boundary.ILM, Boundary.ELM);
      case SUBRETINAL_FLUID, HYPERREFLECTIVE_MATERIAL ->
          between(boundary, Boundary.EZ, Boundary.RPE_INNER);
      case RPE_ELEVATION -> between(boundary, Boundary.RPE, Boundary.BM);
      case DISC -> boundary == Boundary.ILM ? 1 : 0;
      default -> boundary.compareTo(tissue.beginsAt().orElseThrow()) <= 0 ? 1 : -1;
    };
  }

  private static int between(Boundary boundary, Boundary lastBefore, Boundary firstBehind) {
    if (boundary.compareTo(lastBefore) <= 0) {
      return 1;
    }
    return boundary.compareTo(firstBehind) >= 0 ? -1 : 0;
  }

  int columns() {
    return columns;
  }

  /** Returns the first row of a column; its place 0 is before that. */
  int first(int column) {
    return first[column];
  }

  /** Returns the number of places in a column: one more than rows. */
  int places() {
    return rows + 1;
  }

  /**
   * Returns the costs of the boundary gone to, index {@code column * places + place}; place p lies
   * before row {@code first(column) + p}. Each column's first entry is 0. Not to be changed.
   */
  float[] balance() {
    return balance;
  }
}
