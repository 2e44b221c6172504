package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.isopach.analysis.scan.ScanSize;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMap;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.Test;

/** What is taken off: patches under 0.0018 mm², and such as are nowhere 85 % sure. */
class RegionSieveTest {
  private static final int SIDE = 80;
  private static final ScanSize SIZE = new ScanSize(1, SIDE, SIDE);

  /** A map of 20 columns by 40 rows that is fluid of one kind everywhere, so sure. */
  private static TissueMap sure(Tissue tissue, int steps) {
    TissueMaps cells = TissueMaps.of(SIDE / 4, SIDE / 2);
    for (int c = 0; c < cells.columns(); c++) {
      for (int r = 0; r < cells.rows(); r++) {
        cells.clear(r, c).set(tissue, r, c, steps).set(Tissue.ONL, r, c, 255 - steps);
      }
    }
    return cells.build();
  }

  private static TissueMap certain() {
    return sure(Tissue.INTRARETINAL_FLUID, 255);
  }

  private static byte[] patch(int firstDepth, int deep, int firstAscan, int wide, int label) {
    byte[] labels = new byte[SIDE * SIDE];
    add(labels, firstDepth, deep, firstAscan, wide, label);
    return labels;
  }

  private static void add(byte[] into, int firstDepth, int deep, int first, int wide, int label) {
    for (int d = firstDepth; d < firstDepth + deep; d++) {
      for (int a = first; a < first + wide; a++) {
        into[d * SIDE + a] = (byte) label;
      }
    }
  }

  private static int left(byte[] labels, TissueMap map, double ascanUm, double depthUm) {
    new RegionSieve(SIZE, ascanUm, depthUm).sift(labels, map);
    int n = 0;
    for (byte label : labels) {
      n += label != 0 ? 1 : 0;
    }
    return n;
  }

  /** 1800 µm² are 18 pixels of 25 by 4 µm, 9 of 20 by 10. */
  @Test
  void leastAreaIsInSquareMillimetresAtAnySpacing() {
    assertEquals(18, left(patch(10, 3, 20, 6, 1), certain(), 25, 4));
    assertEquals(0, left(patch(10, 1, 20, 17, 1), certain(), 25, 4));
    assertEquals(9, left(patch(10, 3, 20, 3, 1), certain(), 20, 10));
    assertEquals(0, left(patch(10, 2, 20, 4, 1), certain(), 20, 10));
    assertEquals(18, left(patch(10, 6, 20, 3, 1), certain(), 4, 25));
    assertEquals(0, left(patch(10, 17, 20, 1, 1), certain(), 4, 25));
  }

  @Test
  void aPatchMustBeSureSomewhere() {
    TissueMap doubtful = sure(Tissue.INTRARETINAL_FLUID, 214);
    assertEquals(0, left(patch(10, 10, 20, 10, 1), doubtful, 25, 4), "84 % sure");
    TissueMap surer = sure(Tissue.INTRARETINAL_FLUID, 219);
    assertEquals(100, left(patch(10, 10, 20, 10, 1), surer, 25, 4), "86 % sure");
  }

  @Test
  void oneSureCellInsideIsEnoughAndOneOutsideIsNot() {
    TissueMaps cells = TissueMaps.of(SIDE / 4, SIDE / 2);
    cells.set(Tissue.INTRARETINAL_FLUID, 7, 6, 255);
    // Row 7 has its centre at depth 14.5, column 6 at A-scan 24.5.
    assertEquals(100, left(patch(10, 10, 20, 10, 1), cells.build(), 25, 4));
    assertEquals(0, left(patch(30, 10, 20, 10, 1), cells.build(), 25, 4));
  }

  @Test
  void anotherTissueDoesNotMakeAPatchSure() {
    TissueMap other = sure(Tissue.SUBRETINAL_FLUID, 255);
    assertEquals(0, left(patch(10, 10, 20, 10, 1), other, 25, 4));
    assertEquals(100, left(patch(10, 10, 20, 10, 2), other, 25, 4));
  }

  @Test
  void patchesThatTouchByACornerDoNotJoin() {
    byte[] labels = patch(10, 3, 20, 3, 1);
    add(labels, 13, 3, 23, 3, 1);
    assertEquals(0, left(labels, certain(), 25, 4), "two of 9 pixels");
    byte[] joined = patch(10, 3, 20, 3, 1);
    add(joined, 13, 3, 22, 3, 1);
    assertEquals(18, left(joined, certain(), 25, 4), "one of 18 pixels");
  }

  @Test
  void patchesOfTwoKindsDoNotJoin() {
    byte[] labels = patch(10, 3, 20, 5, 1);
    add(labels, 13, 3, 20, 5, 2);
    assertEquals(0, left(labels, certain(), 25, 4));
  }

  /** The last A-scan of a depth and the first of the next are no neighbours. */
  @Test
  void patchesDoNotJoinAroundTheFramesSides() {
    byte[] labels = patch(10, 3, SIDE - 3, 3, 1);
    add(labels, 11, 3, 0, 3, 1);
    assertEquals(0, left(labels, certain(), 25, 4));
  }

  @Test
  void onlyTheSmallPatchIsTakenOff() {
    byte[] labels = patch(10, 6, 20, 6, 1);
    byte[] expected = labels.clone();
    add(labels, 40, 2, 20, 3, 1);
    new RegionSieve(SIZE, 25, 4).sift(labels, certain());
    assertArrayEquals(expected, labels);
  }

  @Test
  void theWholeFrameMayBeOnePatch() {
    assertEquals(SIDE * SIDE, left(patch(0, SIDE, 0, SIDE, 1), certain(), 25, 4));
  }
}
