package org.isopach.segment.tissue;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Builds tissue maps cell by cell. Probabilities are given in steps of 1/255, as a map keeps them;
 * the array behind the map is wider and deeper than the map and full of rubbish there, as a model's
 * padding is.
 */
public final class TissueMaps {
  /** Steps in a certain cell. */
  public static final int CERTAIN = 255;

  private static final int SPARE_COLUMNS = 3;
  private static final int SPARE_ROWS = 5;
  private static final int TISSUES = Tissue.values().length;

  private final TissueGrid grid;
  private final int columns;
  private final int stride;
  private final byte[] steps;

  /** Begins a map whose every cell is certainly vitreous. */
  public TissueMaps(TissueGrid grid) {
    this.grid = grid;
    this.columns = (grid.columns() + 1) / 2;
    this.stride = grid.rows() + SPARE_ROWS;
    this.steps = new byte[TISSUES * (columns + SPARE_COLUMNS) * stride];
    Arrays.fill(steps, (byte) 201);
    fill(Tissue.VITREOUS, 0, grid.rows(), 0, columns);
  }

  /** Begins a map of so many columns and rows, each 2 A-scans by 2 depths on the grid. */
  public static TissueMaps of(int columns, int rows) {
    return new TissueMaps(new TissueGrid(2, 2, 2 * columns, rows));
  }

  /** Returns the number of columns of the map. */
  public int columns() {
    return columns;
  }

  /** Returns the number of rows of the map. */
  public int rows() {
    return grid.rows();
  }

  /** Makes the cells of a rectangle certainly one tissue. */
  public TissueMaps fill(Tissue tissue, int firstRow, int endRow, int firstColumn, int endColumn) {
    for (int c = firstColumn; c < endColumn; c++) {
      for (int r = firstRow; r < endRow; r++) {
        clear(r, c);
        set(tissue, r, c, CERTAIN);
      }
    }
    return this;
  }

  /** Makes a cell hold nothing; to be filled by {@link #set}. */
  public TissueMaps clear(int row, int column) {
    for (Tissue tissue : Tissue.values()) {
      set(tissue, row, column, 0);
    }
    return this;
  }

  /** Sets the probability of one tissue in a cell, in steps of 1/255. */
  public TissueMaps set(Tissue tissue, int row, int column, int value) {
    steps[at(tissue, row, column)] = (byte) value;
    return this;
  }

  /** Returns the probability of a tissue in a cell, in steps of 1/255. */
  public int get(Tissue tissue, int row, int column) {
    return steps[at(tissue, row, column)] & 0xff;
  }

  /**
   * Lays the layers of the eye into a column: each tissue fills the share of each row that lies
   * between its boundary and the next.
   *
   * @param places the places of the twelve boundaries in rows, not falling; 0 is the top of row 0;
   *     multiples of 0.2 are kept exactly
   */
  public TissueMaps layers(int column, double... places) {
    for (int r = 0; r < rows(); r++) {
      clear(r, column);
      for (int t = Tissue.VITREOUS.index(); t <= Tissue.SCLERA.index(); t++) {
        double top = t == 0 ? 0 : places[t - 1];
        double bottom = t == Tissue.SCLERA.index() ? rows() : places[t];
        double share = Math.min(r + 1, bottom) - Math.max(r, top);
        set(
            List.of(Tissue.values()).get(t),
            r,
            column,
            (int) Math.round(CERTAIN * Math.max(0, share)));
      }
    }
    return this;
  }

  /**
   * Mixes every cell with as much of random tissues: weight 0 leaves it, 1 leaves nothing of it.
   */
  public TissueMaps noise(SplittableRandom random, double weight) {
    for (int c = 0; c < columns; c++) {
      for (int r = 0; r < rows(); r++) {
        double[] share = shares(random);
        for (Tissue tissue : Tissue.values()) {
          double mixed =
              (1 - weight) * get(tissue, r, c) + weight * CERTAIN * share[tissue.index()];
          set(tissue, r, c, (int) Math.round(mixed));
        }
      }
    }
    return this;
  }

  private static double[] shares(SplittableRandom random) {
    double[] shares = new double[TISSUES];
    double sum = 0;
    for (int t = 0; t < TISSUES; t++) {
      shares[t] = -Math.log(1 - random.nextDouble());
      sum += shares[t];
    }
    for (int t = 0; t < TISSUES; t++) {
      shares[t] /= sum;
    }
    return shares;
  }

  private int at(Tissue tissue, int row, int column) {
    return (tissue.index() * (columns + SPARE_COLUMNS) + column) * stride + row;
  }

  /** Returns the map as it stands; later changes do not reach it. */
  public TissueMap build() {
    return new TissueMap(grid, steps.clone(), columns + SPARE_COLUMNS, stride);
  }
}
