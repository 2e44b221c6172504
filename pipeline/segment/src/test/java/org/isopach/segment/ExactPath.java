package org.isopach.segment;

import java.util.SplittableRandom;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMaps;

/**
 * Cheapest paths of a boundary through a map in whole numbers, without rounding, the slow and plain
 * way: the oracle of the search. One cell on the wrong side costs {@link #CELL}; cells above the
 * map lie inside of every boundary, those below it outside.
 */
final class ExactPath {
  static final int CELL = 2 * 2550;
  private static final int STEP = CELL / TissueMaps.CERTAIN / 2;

  private final long[][] costs;
  private final Moves moves;

  private ExactPath(long[][] costs, Moves moves) {
    this.costs = costs;
    this.moves = moves;
  }

  /**
   * What moves there are between columns: of k rows at most {@code most}, for {@code price} k².
   *
   * @param most in rows
   * @param price in units of which {@link #CELL} are one cell
   */
  record Moves(int most, long price) {
    static Moves of(int most, double cells) {
      return new Moves(most, Math.round(cells * CELL));
    }
  }

  /** Rows that are searched: as many in every column, from the first of each. */
  static final class Band {
    private final int[] first;
    private final int rows;

    Band(int[] first, int rows) {
      this.first = first;
      this.rows = rows;
    }

    int[] first() {
      return first;
    }

    int rows() {
      return rows;
    }

    static Band whole(TissueMaps cells) {
      return new Band(new int[cells.columns()], cells.rows());
    }
  }

  /** Returns the costs of a boundary: at place p of a column, what lies wrongly on either side. */
  static ExactPath of(TissueMaps cells, Boundary boundary, Band band, Moves moves) {
    long[][] costs = new long[cells.columns()][band.rows() + 1];
    for (int c = 0; c < cells.columns(); c++) {
      for (int r = 0; r < band.rows(); r++) {
        int row = band.first()[c] + r;
        costs[c][0] += wrong(cells, boundary, row, c, false);
      }
      for (int r = 0; r < band.rows(); r++) {
        int row = band.first()[c] + r;
        long inwards = wrong(cells, boundary, row, c, true) - wrong(cells, boundary, row, c, false);
        costs[c][r + 1] = costs[c][r] + inwards;
      }
    }
    return new ExactPath(costs, moves);
  }

  private static long wrong(TissueMaps cells, Boundary boundary, int row, int column, boolean in) {
    if (row < 0 || row >= cells.rows()) {
      return (row < 0) == in ? 0 : CELL;
    }
    long wrong = 0;
    for (Tissue tissue : Tissue.values()) {
      int side = SidesTable.side(boundary, tissue);
      // A tissue that may lie on either side counts half wherever it lies.
      int halves = side == 0 ? 1 : (side > 0) == in ? 2 : 0;
      wrong += (long) halves * STEP * cells.get(tissue, row, column);
    }
    return wrong;
  }

  /** Returns the cost of a path of places, 0 for the one before the band's first row. */
  long cost(int[] path) {
    long sum = costs[0][path[0]];
    for (int c = 1; c < path.length; c++) {
      long move = Math.abs(path[c] - path[c - 1]);
      if (move > moves.most()) {
        throw new IllegalArgumentException("a move by " + move);
      }
      sum += costs[c][path[c]] + moves.price() * move * move;
    }
    return sum;
  }

  /** Returns the uppermost or the lowest of the cheapest paths. */
  int[] cheapest(boolean lowest) {
    int columns = costs.length;
    int places = costs[0].length;
    long[][] rest = new long[columns][places];
    for (int c = columns - 1; c >= 0; c--) {
      for (int p = 0; p < places; p++) {
        rest[c][p] = costs[c][p] + (c == columns - 1 ? 0 : onwards(rest[c + 1], p));
      }
    }
    int[] path = new int[columns];
    for (int c = 0; c < columns; c++) {
      long least = Long.MAX_VALUE;
      for (int p = 0; p < places; p++) {
        long move = c == 0 ? 0 : Math.abs(p - path[c - 1]);
        long through = rest[c][p] + moves.price() * move * move;
        if (move <= moves.most() && (through < least || (lowest && through == least))) {
          least = through;
          path[c] = p;
        }
      }
    }
    return path;
  }

  private long onwards(long[] rest, int from) {
    long least = Long.MAX_VALUE;
    int end = Math.min(rest.length, from + moves.most() + 1);
    for (int p = Math.max(0, from - moves.most()); p < end; p++) {
      long move = Math.abs(p - from);
      least = Math.min(least, rest[p] + moves.price() * move * move);
    }
    return least;
  }

  /** Returns one of several kinds of random maps: noise, layers under noise, fluid, hard cells. */
  static TissueMaps random(int seed) {
    SplittableRandom random = new SplittableRandom(seed);
    TissueMaps cells = TissueMaps.of(10 + random.nextInt(8), 26 + random.nextInt(20));
    switch (seed % 4) {
      case 0 -> cells.noise(random, 1);
      case 1 -> layers(cells, random).noise(random, 0.3 + 0.5 * random.nextDouble());
      case 2 -> fluid(layers(cells, random), random).noise(random, 0.5 * random.nextDouble());
      default -> hard(fluid(layers(cells, random), random), random);
    }
    return cells;
  }

  private static TissueMaps layers(TissueMaps cells, SplittableRandom random) {
    double tilt = random.nextDouble() - 0.5;
    for (int c = 0; c < cells.columns(); c++) {
      double[] places = new double[Boundary.values().length];
      double at = 3 + tilt * c + 2 * random.nextDouble();
      for (int b = 0; b < places.length; b++) {
        places[b] = Math.max(0, Math.min(cells.rows(), at));
        at += 3 * random.nextDouble();
      }
      cells.layers(c, places);
    }
    return cells;
  }

  private static TissueMaps fluid(TissueMaps cells, SplittableRandom random) {
    Tissue[] extra = {
      Tissue.INTRARETINAL_FLUID,
      Tissue.SUBRETINAL_FLUID,
      Tissue.RPE_ELEVATION,
      Tissue.HYPERREFLECTIVE_MATERIAL,
      Tissue.DISC
    };
    for (int i = 0; i < 5; i++) {
      int c = random.nextInt(cells.columns() - 3);
      int r = random.nextInt(cells.rows() - 6);
      int wide = 1 + random.nextInt(cells.columns() - c);
      cells.fill(extra[random.nextInt(extra.length)], r, r + 1 + random.nextInt(6), c, c + wide);
    }
    return cells;
  }

  /** Puts certain cells of random tissues here and there: many paths are then equally cheap. */
  private static void hard(TissueMaps cells, SplittableRandom random) {
    Tissue[] all = Tissue.values();
    for (int i = 0; i < 60; i++) {
      int c = random.nextInt(cells.columns());
      int r = random.nextInt(cells.rows());
      cells.fill(all[random.nextInt(all.length)], r, r + 1, c, c + 1);
    }
  }
}
