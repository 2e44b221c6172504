package org.isopach.segment;

/**
 * Finds the cheapest left-to-right path through a picture of costs, one row in each column, by
 * dynamic programming. The cost of moving k rows between neighbouring columns is {@code stiffness *
 * k²}; moves of more than {@code maxStep} rows are not made.
 *
 * <p>One instance per thread; its buffers are reused.
 */
final class PathFinder {
  private float[] reached = new float[0];
  private float[] previous = new float[0];
  private float[] current = new float[0];

  /**
   * Returns the row of the cheapest path in each column. Among equally cheap paths the one with the
   * smaller moves is taken, then the one that comes from below.
   *
   * @param costs cost of each cell, index {@code column * rows + row}; infinite where forbidden
   * @param columns number of columns, at least 1
   * @param rows number of rows, at least 1
   * @param maxStep largest move, at least 1
   * @param stiffness cost of a move by one row, not negative
   */
  int[] cheapest(float[] costs, int columns, int rows, int maxStep, float stiffness) {
    prepare(columns * rows, rows);
    float[] penalty = new float[maxStep + 1];
    for (int k = 0; k <= maxStep; k++) {
      penalty[k] = stiffness * k * k;
    }
    System.arraycopy(costs, 0, current, 0, rows);
    System.arraycopy(current, 0, reached, 0, rows);
    for (int c = 1; c < columns; c++) {
      float[] swap = previous;
      previous = current;
      current = swap;
      approach(rows, maxStep, penalty);
      for (int r = 0; r < rows; r++) {
        current[r] += costs[c * rows + r];
      }
      System.arraycopy(current, 0, reached, c * rows, rows);
    }
    return trace(columns, rows, maxStep, penalty);
  }

  private void prepare(int cells, int rows) {
    if (reached.length < cells) {
      reached = new float[cells];
    }
    if (previous.length < rows) {
      previous = new float[rows];
      current = new float[rows];
    }
  }

  /** Fills the current column with the cheapest way to come to each row from the previous one. */
  private void approach(int rows, int maxStep, float[] penalty) {
    float[] from = previous;
    float[] to = current;
    System.arraycopy(from, 0, to, 0, rows);
    for (int k = 1; k <= Math.min(maxStep, rows - 1); k++) {
      float p = penalty[k];
      for (int r = 0; r < rows - k; r++) {
        to[r] = Math.min(to[r], from[r + k] + p);
      }
      for (int r = k; r < rows; r++) {
        to[r] = Math.min(to[r], from[r - k] + p);
      }
    }
  }

  private int[] trace(int columns, int rows, int maxStep, float[] penalty) {
    int last = (columns - 1) * rows;
    int best = 0;
    for (int r = 1; r < rows; r++) {
      if (reached[last + r] < reached[last + best]) {
        best = r;
      }
    }
    int[] path = new int[columns];
    path[columns - 1] = best;
    for (int c = columns - 1; c > 0; c--) {
      best = cameFrom((c - 1) * rows, best, rows, maxStep, penalty);
      path[c - 1] = best;
    }
    return path;
  }

  private int cameFrom(int base, int row, int rows, int maxStep, float[] penalty) {
    int best = row;
    float least = reached[base + row];
    for (int k = 1; k <= maxStep; k++) {
      if (row + k < rows && reached[base + row + k] + penalty[k] < least) {
        best = row + k;
        least = reached[base + row + k] + penalty[k];
      }
      if (row - k >= 0 && reached[base + row - k] + penalty[k] < least) {
        best = row - k;
        least = reached[base + row - k] + penalty[k];
      }
    }
    return best;
  }
}
