package org.isopach.segment.tissue;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Cells, sums and places of a map against the builder's own cells. */
class TissueMapTest {
  private static TissueMaps random(int seed) {
    return new TissueMaps(new TissueGrid(3, 2, 2 * 9 - seed % 2, 17))
        .noise(new SplittableRandom(seed), 1);
  }

  @Test
  void givesTheProbabilitiesItWasMadeOf() {
    for (int seed = 0; seed < 2; seed++) {
      TissueMaps cells = random(seed);
      TissueMap map = cells.build();
      assertEquals(9, map.columns());
      assertEquals(17, map.rows());
      for (Tissue tissue : Tissue.values()) {
        for (int c = 0; c < 9; c++) {
          for (int r = 0; r < 17; r++) {
            assertEquals(cells.get(tissue, r, c) / 255.0, map.probability(tissue, r, c), 1e-6);
          }
        }
      }
    }
  }

  @Test
  void addsATissueOfSomeRows() {
    TissueMaps cells = random(3);
    float[] into = new float[9 * 5];
    java.util.Arrays.fill(into, 10);
    cells.build().add(Tissue.ONL, -2, 7, 5, into);
    for (int c = 0; c < 9; c++) {
      for (int r = 0; r < 5; r++) {
        double expected = 10 - 2 * cells.get(Tissue.ONL, 7 + r, c) / 255.0;
        assertEquals(expected, into[c * 5 + r], 1e-5);
      }
    }
  }

  @Test
  void sumsTissuesOverAColumn() {
    TissueMaps cells = random(5);
    Set<Tissue> some = EnumSet.of(Tissue.INL, Tissue.DISC, Tissue.VITREOUS);
    float[] expected = new float[9];
    for (Tissue tissue : some) {
      for (int c = 0; c < 9; c++) {
        for (int r = 0; r < 17; r++) {
          expected[c] += cells.get(tissue, r, c) / 255f;
        }
      }
    }
    assertArrayEquals(expected, cells.build().sums(some), 1e-4f);
  }

  /** Column c of the map is column 2c of the grid, whose centre is the middle of its A-scans. */
  @Test
  void everySecondColumnOfTheGridIsAColumn() {
    for (int wide = 1; wide <= 6; wide++) {
      for (int gridColumns = 1; gridColumns <= 12; gridColumns++) {
        TissueMap map = new TissueMaps(new TissueGrid(wide, 2, gridColumns, 4)).build();
        assertEquals((gridColumns + 1) / 2, map.columns());
        assertEquals(2 * wide, map.ascansPerColumn());
        double before = 0;
        for (int a = 0; a < gridColumns * wide + wide - 1; a++) {
          double centre = (a - (wide - 1) / 2.0) / (2 * wide);
          double expected = Math.max(0, Math.min(map.columns() - 1, centre));
          assertEquals(expected, map.column(a), 1e-9);
          assertTrue(map.column(a) >= before);
          before = map.column(a);
        }
      }
    }
  }
}
