package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.Test;

/** The paths of a frame against the plain search in whole numbers, and places below the row. */
class LayerSearchTest {
  private static final int MAPS = 300;
  private static final double ROW_MICROMETRES = 7.74;
  private static final ExactPath.Moves FIRST = ExactPath.Moves.of(9, 0.04);
  private static final ExactPath.Moves FINAL = ExactPath.Moves.of(5, 0.1);

  /** The probabilities of a cell of noise, each rounded, sum to 1 within this. */
  private static final float ROUNDING = 0.04f;

  @Test
  void everyPathIsTheCheapestInItsBand() {
    int unique = 0;
    for (int seed = 0; seed < MAPS; seed++) {
      TissueMaps cells = ExactPath.random(seed);
      Optional<ExactPath.Band> band = band(cells);
      if (band.isEmpty()) {
        continue;
      }
      LayerPaths paths = new LayerSearch(SearchRules.MACULA, ROW_MICROMETRES).search(cells.build());
      for (Boundary boundary : Boundary.values()) {
        ExactPath exact = ExactPath.of(cells, boundary, band.get(), FINAL);
        int[] path = exact.cheapest(false);
        if (Arrays.equals(path, exact.cheapest(true))) {
          unique++;
          for (int c = 0; c < path.length; c++) {
            path[c] += band.get().first()[c];
          }
          assertArrayEquals(path, paths.rows(boundary), "seed " + seed + ", " + boundary);
        }
      }
    }
    int some = unique;
    assertTrue(some > MAPS * 6, () -> "only " + some + " paths were the only cheapest ones");
  }

  /**
   * The band along the course of Bruch's membrane, from 10 rows above the retina to 480 µm and 10
   * rows behind it; empty where the paths that it follows are not the only cheapest ones.
   */
  private static Optional<ExactPath.Band> band(TissueMaps cells) {
    ExactPath.Band whole = ExactPath.Band.whole(cells);
    ExactPath inner = ExactPath.of(cells, Boundary.ILM, whole, FIRST);
    ExactPath outer = ExactPath.of(cells, Boundary.BM, whole, FIRST);
    int[] ilm = inner.cheapest(false);
    int[] bm = outer.cheapest(false);
    if (!Arrays.equals(ilm, inner.cheapest(true)) || !Arrays.equals(bm, outer.cheapest(true))) {
      return Optional.empty();
    }
    float[] line = new float[bm.length];
    for (int c = 0; c < bm.length; c++) {
      line[c] = bm[c];
    }
    float[] course = LineSmoother.smooth(line, 9);
    int[] first = new int[bm.length];
    int above = 0;
    int below = 0;
    for (int c = 0; c < bm.length; c++) {
      first[c] = Math.round(course[c]);
      above = Math.max(above, first[c] - ilm[c]);
      below = Math.max(below, bm[c] - first[c]);
    }
    for (int c = 0; c < bm.length; c++) {
      first[c] -= above + 10;
    }
    int choroid = (int) Math.round(480 / ROW_MICROMETRES);
    return Optional.of(new ExactPath.Band(first, above + below + choroid + 20));
  }

  @Test
  void pathsAndPlacesAreInOrder() {
    for (int seed = 0; seed < MAPS; seed++) {
      TissueMaps cells = ExactPath.random(seed);
      LayerPaths paths = new LayerSearch(SearchRules.MACULA, ROW_MICROMETRES).search(cells.build());
      int[] rows = new int[cells.columns()];
      float[] places = new float[cells.columns()];
      for (Boundary boundary : Boundary.values()) {
        for (int c = 0; c < rows.length; c++) {
          String name = "seed " + seed + ", " + boundary + ", column " + c;
          assertTrue(paths.rows(boundary)[c] >= rows[c], name);
          assertTrue(paths.places(boundary)[c] >= places[c] - ROUNDING, name);
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
    LayerPaths paths = new LayerSearch(SearchRules.MACULA, ROW_MICROMETRES).search(cells.build());
    for (Boundary boundary : Boundary.values()) {
      for (int c = 0; c < cells.columns(); c++) {
        assertEquals(
            places[c][List.of(Boundary.values()).indexOf(boundary)],
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
    LayerPaths paths = new LayerSearch(SearchRules.MACULA, ROW_MICROMETRES).search(cells.build());
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
    LayerPaths paths = new LayerSearch(SearchRules.MACULA, ROW_MICROMETRES).search(cells.build());
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
      LayerPaths paths = new LayerSearch(SearchRules.MACULA, ROW_MICROMETRES).search(cells.build());
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
