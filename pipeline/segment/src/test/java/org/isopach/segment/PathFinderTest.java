package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Shortest paths against trying every path there is (our own oracle, no outside source). */
class PathFinderTest {
  private static final int COLUMNS = 6;
  private static final int ROWS = 5;

  @Test
  void findsWhatTryingEveryPathFinds() {
    PathFinder finder = new PathFinder();
    for (int seed = 0; seed < 60; seed++) {
      Random random = new Random(seed);
      float[] costs = new float[COLUMNS * ROWS];
      for (int i = 0; i < costs.length; i++) {
        costs[i] = random.nextFloat();
      }
      int maxStep = 1 + seed % 3;
      float stiffness = 0.3f * random.nextFloat();
      int[] path = finder.cheapest(costs, COLUMNS, ROWS, maxStep, stiffness);
      assertEquals(
          cheapestOfAll(costs, maxStep, stiffness, new int[COLUMNS], 0),
          cost(costs, path, maxStep, stiffness),
          1e-5);
    }
  }

  @Test
  void keepsOutOfForbiddenCells() {
    float[] costs = new float[COLUMNS * ROWS];
    int[] only = {0, 1, 2, 2, 3, 4};
    Arrays.fill(costs, Float.POSITIVE_INFINITY);
    for (int c = 0; c < COLUMNS; c++) {
      costs[c * ROWS + only[c]] = 1;
    }
    assertArrayEquals(only, new PathFinder().cheapest(costs, COLUMNS, ROWS, 1, 5));
  }

  private static double cheapestOfAll(
      float[] costs, int maxStep, float stiffness, int[] path, int column) {
    if (column == COLUMNS) {
      return cost(costs, path, maxStep, stiffness);
    }
    double best = Double.POSITIVE_INFINITY;
    for (int row = 0; row < ROWS; row++) {
      path[column] = row;
      best = Math.min(best, cheapestOfAll(costs, maxStep, stiffness, path, column + 1));
    }
    return best;
  }

  private static double cost(float[] costs, int[] path, int maxStep, float stiffness) {
    double sum = costs[path[0]];
    for (int c = 1; c < COLUMNS; c++) {
      int step = Math.abs(path[c] - path[c - 1]);
      if (step > maxStep) {
        return Double.POSITIVE_INFINITY;
      }
      sum += costs[c * ROWS + path[c]] + stiffness * step * step;
    }
    return sum;
  }
}
