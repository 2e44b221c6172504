package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.Test;

/** The paths of a frame against the plain search in whole numbers, and places below the row. */
class LayerSearchTest {
  private static final int MAPS = 300;
  private static final int MAX_STEP = 6;

  /** Costs are added up in single precision; this much of a cell may be lost in all. */
  private static final double ROUNDING = 0.002 * ExactPath.CELL;

  @Test
  void everyPathIsACheapestOne() {
    int unique = 0;
    for (int seed = 0; seed < MAPS; seed++) {
      TissueMaps cells = ExactPath.random(seed);
      LayerPaths paths = new LayerSearch().search(cells.build());
      for (Boundary boundary : Boundary.values()) {
        ExactPath exact = ExactPath.of(cells, boundary, MAX_STEP);
        int[] highest = exact.cheapest(false);
        int[] found = paths.rows(boundary);
        String name = "seed " + seed + ", " + boundary;
        if (Arrays.equals(highest, exact.cheapest(true))) {
          unique++;
          assertArrayEquals(highest, found, name);
        } else if (seed % 4 != 3) {
          assertEquals(exact.cost(highest), exact.cost(found), ROUNDING, name);
        }
      }
    }
    int some = unique;
    assertTrue(some > MAPS * 6, () -> "only " + some + " paths were the only cheapest ones");
  }

  @Test
  void pathsAndPlacesAreInOrder() {
    for (int seed = 0; seed < MAPS; seed++) {
      TissueMaps cells = ExactPath.random(seed);
      LayerPaths paths = new LayerSearch().search(cells.build());
      int[] rows = new int[cells.columns()];
      float[] places = new float[cells.columns()];
      for (Boundary boundary : Boundary.values()) {
        for (int c = 0; c < rows.length; c++) {
          String name = "seed " + seed + ", " + boundary + ", column " + c;
          assertTrue(paths.rows(boundary)[c] >= rows[c], name);
          assertTrue(paths.places(boundary)[c] >= places[c] - 1e-3f, name);
        }
        rows = paths.rows(boundary);
        places = paths.places(boundary);
      }
    }
  }

  /** Layers whose borders run through cells, which then hold both tissues in known shares. */
  @Test
  void placesBelowTheRowAreExact() {
    double[] first = {9.2, 13.8, 18.4, 23, 28.6, 33.2, 41.8, 46.4, 51, 56.6, 61.2, 75.8};
    TissueMaps cells = TissueMaps.of(30, 100);
    double[][] places = new double[cells.columns()][first.length];
    for (int c = 0; c < cells.columns(); c++) {
      for (int b = 0; b < first.length; b++) {
        places[c][b] = first[b] + 0.2 * (c % 7);
      }
      cells.layers(c, places[c]);
    }
    LayerPaths paths = new LayerSearch().search(cells.build());
    for (Boundary boundary : Boundary.values()) {
      for (int c = 0; c < cells.columns(); c++) {
        assertEquals(
            places[c][boundary.ordinal()],
            paths.places(boundary)[c],
            1e-3,
            boundary + ", column " + c);
      }
    }
  }

  @Test
  void nothingIsDoubtfulInACertainMap() {
    TissueMaps cells = TissueMaps.of(20, 90);
    for (int c = 0; c < cells.columns(); c++) {
      cells.layers(c, 9, 13, 18, 23, 28, 33, 41, 46, 51, 56, 61, 75);
    }
    LayerPaths paths = new LayerSearch().search(cells.build());
    for (Boundary boundary : Boundary.values()) {
      for (float doubt : paths.doubts(boundary)) {
        assertEquals(0, doubt, 1e-4, boundary.toString());
      }
    }
  }

  /** Three cells on either side are asked: of shares wrongly placed, the sum is the doubt. */
  @Test
  void doubtIsTheExpectedNumberOfMisplacedCells() {
    TissueMaps cells = TissueMaps.of(20, 90);
    for (int c = 0; c < cells.columns(); c++) {
      cells.layers(c, 20, 30, 38, 43, 48, 53, 58, 62, 67, 71, 75, 85);
      cells.clear(18, c).set(Tissue.VITREOUS, 18, c, 204).set(Tissue.RNFL, 18, c, 51);
      cells.clear(21, c).set(Tissue.VITREOUS, 21, c, 102).set(Tissue.RNFL, 21, c, 153);
      // Too far away to be asked.
      cells.clear(25, c).set(Tissue.VITREOUS, 25, c, 102).set(Tissue.RNFL, 25, c, 153);
    }
    LayerPaths paths = new LayerSearch().search(cells.build());
    for (int c = 0; c < cells.columns(); c++) {
      assertEquals(20, paths.rows(Boundary.ILM)[c]);
      assertEquals(0.2 + 0.4, paths.doubts(Boundary.ILM)[c], 1e-3);
      assertEquals(20.2, paths.places(Boundary.ILM)[c], 1e-3);
      assertEquals(0, paths.doubts(Boundary.BM)[c], 1e-3);
    }
  }

  /** Where a retina has no layers, all boundaries fall together and none lies outside the map. */
  @Test
  void aMapOfOneTissueHasPathsInsideIt() {
    for (Tissue tissue : Tissue.values()) {
      TissueMaps cells = TissueMaps.of(7, 12).fill(tissue, 0, 12, 0, 7);
      LayerPaths paths = new LayerSearch().search(cells.build());
      for (Boundary boundary : Boundary.values()) {
        int side = SidesTable.side(boundary, tissue);
        for (int c = 0; c < 7; c++) {
          int row = paths.rows(boundary)[c];
          assertTrue(row >= 0 && row <= 12, tissue + " at " + boundary);
          assertTrue(side <= 0 || row == 0, tissue + " at " + boundary);
          assertTrue(side >= 0 || row == 12, tissue + " at " + boundary);
        }
      }
    }
  }
}
