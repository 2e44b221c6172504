package org.isopach.segment;

import java.util.Arrays;

/**
 * Finds the cheapest left-to-right path through a picture of costs, one row in each column, by
 * dynamic programming. The cost of moving k rows between neighbouring columns is {@code stiffness *
 * k²}; moves of more than {@code maxStep} rows are not made.
 *
 * <p>One instance per thread; its buffers are reused.
 */
final class PathFinder {
  private byte[] moves = new byte[0];
  private float[] previous = new float[0];
  private float[] current = new float[0];

  /**
   * Returns the row of the cheapest path in each column.
   *
   * @param costs cost of each cell, index {@code column * rows + row}; infinite where forbidden
   * @param columns number of columns, at least 1
   * @param rows number of rows, at least 1
   * @param maxStep largest move, 1 to 127
   * @param stiffness cost of a move by one row, not negative
   */
  int[] cheapest(float[] costs, int columns, int rows, int maxStep, float stiffness) {
    prepare(columns * rows, rows);
    float[] penalty = new float[maxStep + 1];
    for (int k = 0; k <= maxStep; k++) {
      penalty[k] = stiffness * k * k;
    }
    System.arraycopy(costs, 0, previous, 0, rows);
    for (int c = 1; c < columns; c++) {
      advance(costs, c, rows, maxStep, penalty);
      float[] swap = previous;
      previous = current;
      current = swap;
    }
    return trace(columns, rows);
  }

  private void prepare(int cells, int rows) {
    if (moves.length < cells) {
      moves = new byte[cells];
    }
    if (previous.length < rows) {
      previous = new float[rows];
      current = new float[rows];
    }
  }

  private void advance(float[] costs, int c, int rows, int maxStep, float[] penalty) {
    Arrays.fill(current, 0, rows, Float.POSITIVE_INFINITY);
    int base = c * rows;
    System.arraycopy(previous, 0, current, 0, rows);
    Arrays.fill(moves, base, base + rows, (byte) 0);
    for (int k = 1; k <= maxStep; k++) {
      float p = penalty[k];
      for (int r = 0; r < rows - k; r++) {
        float up = previous[r + k] + p;
        if (up < current[r]) {
          current[r] = up;
          moves[base + r] = (byte) k;
        }
      }
      for (int r = k; r < rows; r++) {
        float down = previous[r - k] + p;
        if (down < current[r]) {
          current[r] = down;
          moves[base + r] = (byte) -k;
        }
      }
    }
    for (int r = 0; r < rows; r++) {
      current[r] += costs[base + r];
    }
  }

  private int[] trace(int columns, int rows) {
    int best = 0;
    for (int r = 1; r < rows; r++) {
      if (previous[r] < previous[best]) {
        best = r;
      }
    }
    int[] path = new int[columns];
    path[columns - 1] = best;
    for (int c = columns - 1; c > 0; c--) {
      best += moves[c * rows + best];
      path[c - 1] = best;
    }
    return path;
  }
}
