package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.Test;

/** What a place costs, and that cheapest paths at one stiffness do not cross (decision 0009). */
class LayerCostsTest {
  private static final int MAPS = 400;
  private static final ExactPath.Moves MOVES = ExactPath.Moves.of(5, 0.1);

  /** Costs are added up in single precision; this much of a cell may be lost in all. */
  private static final double ROUNDING = 0.002 * ExactPath.CELL;

  @Test
  void everyTissueLiesWhereAnatomyPutsIt() {
    for (Tissue tissue : Tissue.values()) {
      for (Boundary boundary : Boundary.values()) {
        assertEquals(
            SidesTable.side(boundary, tissue),
            LayerCosts.side(boundary, tissue),
            tissue + " at " + boundary);
      }
    }
  }

  @Test
  void whatIsInsideOfABoundaryIsInsideOfAllLaterOnes() {
    for (Tissue tissue : Tissue.values()) {
      int before = 1;
      for (Boundary boundary : Boundary.values()) {
        int side = LayerCosts.side(boundary, tissue);
        assertTrue(side <= before, tissue + " at " + boundary);
        before = side;
      }
    }
  }

  /** Costs are built up from boundary to boundary; each must be what it is by itself. */
  @Test
  void costsAreTheSidesAddedUpFromTheFirstRowOfTheBand() {
    TissueMaps cells = ExactPath.random(2);
    ExactPath.Band band = band(cells, new SplittableRandom(2));
    LayerCosts costs = new LayerCosts(cells.build(), band.first(), band.rows());
    assertEquals(band.rows() + 1, costs.places());
    for (Boundary boundary : Boundary.values()) {
      costs.goTo(boundary);
      for (int c = 0; c < cells.columns(); c++) {
        assertEquals(band.first()[c], costs.first(c));
        float[] expected = new float[costs.places()];
        for (int p = 1; p < expected.length; p++) {
          expected[p] = expected[p - 1] + (float) side(cells, boundary, band.first()[c] + p - 1, c);
        }
        float[] actual = new float[costs.places()];
        System.arraycopy(costs.balance(), c * costs.places(), actual, 0, actual.length);
        assertArrayEquals(expected, actual, 1e-4f);
      }
    }
  }

  /** A band that reaches out of the map above and below, and rises and falls. */
  private static ExactPath.Band band(TissueMaps cells, SplittableRandom random) {
    int[] first = new int[cells.columns()];
    first[0] = -5;
    for (int c = 1; c < first.length; c++) {
      first[c] = first[c - 1] + random.nextInt(7) - 3;
    }
    return new ExactPath.Band(first, cells.rows() + 3);
  }

  private static double side(TissueMaps cells, Boundary boundary, int row, int column) {
    if (row < 0 || row >= cells.rows()) {
      return row < 0 ? -1 : 1;
    }
    double side = 0;
    for (Tissue tissue : Tissue.values()) {
      side += SidesTable.side(boundary, tissue) * cells.get(tissue, row, column) / 255.0;
    }
    return side;
  }

  @Test
  void uppermostAndLowestOfTheCheapestPathsNeverCross() {
    for (int seed = 0; seed < MAPS; seed++) {
      TissueMaps cells = ExactPath.random(seed);
      ExactPath.Band band = band(cells, new SplittableRandom(seed));
      for (boolean lowest : new boolean[] {false, true}) {
        int[] before = new int[cells.columns()];
        for (Boundary boundary : Boundary.values()) {
          int[] path = ExactPath.of(cells, boundary, band, MOVES).cheapest(lowest);
          for (int c = 0; c < path.length; c++) {
            assertTrue(path[c] >= before[c], "seed " + seed + ", " + boundary);
          }
          before = path;
        }
      }
    }
  }

  /**
   * Paths as the program finds them, before anything is cut off. Where two cross all the same, each
   * may change sides with the other at no cost: they are equally cheap.
   */
  @Test
  void rawPathsCrossOnlyWhereOthersAreAsCheap() {
    List<String> crossed = new ArrayList<>();
    for (int seed = 0; seed < MAPS; seed++) {
      TissueMaps cells = ExactPath.random(seed);
      ExactPath.Band band = band(cells, new SplittableRandom(seed));
      LayerCosts costs = new LayerCosts(cells.build(), band.first(), band.rows());
      int[] before = new int[cells.columns()];
      ExactPath exactBefore = null;
      for (Boundary boundary : Boundary.values()) {
        costs.goTo(boundary);
        int[] path =
            new PathFinder().cheapest(costs.balance(), costs.columns(), costs.places(), 5, 0.1f);
        ExactPath exact = ExactPath.of(cells, boundary, band, MOVES);
        if (!inOrder(before, path)) {
          crossed.add("seed " + seed + ", " + boundary);
          long gain = gain(exactBefore, before, exact, path);
          assertTrue(gain >= 0 && gain <= ROUNDING, crossed + " for " + gain);
        }
        before = path;
        exactBefore = exact;
      }
    }
    assertTrue(crossed.stream().noneMatch(LayerCostsTest::isNoise), () -> "crossed: " + crossed);
  }

  /** Maps of much noise have no ties. */
  private static boolean isNoise(String where) {
    return Integer.parseInt(where.replaceAll("\\D*(\\d+),.*", "$1")) % 4 < 2;
  }

  private static boolean inOrder(int[] inner, int[] outer) {
    for (int c = 0; c < inner.length; c++) {
      if (outer[c] < inner[c]) {
        return false;
      }
    }
    return true;
  }

  /** Returns how much cheaper both become together when they are put in order. */
  private static long gain(ExactPath costsInner, int[] inner, ExactPath costsOuter, int[] outer) {
    int[] upper = new int[inner.length];
    int[] lower = new int[inner.length];
    for (int c = 0; c < inner.length; c++) {
      upper[c] = Math.min(inner[c], outer[c]);
      lower[c] = Math.max(inner[c], outer[c]);
    }
    return costsInner.cost(inner)
        + costsOuter.cost(outer)
        - costsInner.cost(upper)
        - costsOuter.cost(lower);
  }
}
