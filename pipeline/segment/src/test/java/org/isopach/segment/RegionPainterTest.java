package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.SplittableRandom;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueGrid;
import org.isopach.segment.tissue.TissueMap;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.Test;

/** Which pixels are labelled, against interpolating at every pixel of the frame. */
class RegionPainterTest {
  @Test
  void everyKindHasATissueAndALabel() {
    assertEquals(EnumSet.allOf(RegionKind.class), RegionPainter.TISSUES.keySet());
    for (RegionKind kind : RegionKind.values()) {
      TissueMaps cells = TissueMaps.of(6, 9).fill(Tissue.valueOf(kind.name()), 3, 6, 2, 4);
      byte[] labels = new RegionPainter(new ScanSize(1, 24, 18)).paint(cells.build());
      assertEquals(kind.label(), labels[9 * 24 + 10]);
      assertEquals(0, labels[24 + 10]);
    }
  }

  /** A certain patch ends half way between the centres of its last cell and the next. */
  @Test
  void aPatchEndsHalfWayToTheNextCell() {
    TissueMaps cells = TissueMaps.of(10, 20).fill(Tissue.INTRARETINAL_FLUID, 8, 12, 4, 6);
    ScanSize size = new ScanSize(1, 40, 40);
    byte[] labels = new RegionPainter(size).paint(cells.build());
    // Centres of rows 8 and 11 are at 16.5 and 22.5, of columns 4 and 5 at 16.5 and 20.5.
    for (int d = 0; d < 40; d++) {
      for (int a = 0; a < 40; a++) {
        boolean well = d > 16 && d < 23 && a > 16 && a < 21;
        boolean out = d < 15.5 || d > 23.5 || a < 14.5 || a > 22.5;
        byte label = labels[d * 40 + a];
        assertTrue(!well || label == 1, "depth " + d + ", A-scan " + a);
        assertTrue(!out || label == 0, "depth " + d + ", A-scan " + a);
      }
    }
    long count = Arrays.stream(boxed(labels)).filter(label -> label != 0).count();
    assertTrue(
        count >= 8 * 8 - 12 && count <= 8 * 8, count + " pixels, 64 without its corners cut");
  }

  private static Byte[] boxed(byte[] labels) {
    Byte[] all = new Byte[labels.length];
    Arrays.setAll(all, i -> labels[i]);
    return all;
  }

  @Test
  void labelsAreThoseOfInterpolatingAtEveryPixel() {
    for (int seed = 0; seed < 60; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      TissueGrid grid =
          new TissueGrid(1 + random.nextInt(10), 1 + random.nextInt(5), 13 + seed % 2, 11);
      TissueMaps cells = patches(new TissueMaps(grid), random);
      int ascans = grid.columns() * grid.ascansPerCell() + random.nextInt(grid.ascansPerCell());
      int depths = grid.rows() * grid.depthsPerCell() + random.nextInt(grid.depthsPerCell());
      byte[] labels = new RegionPainter(new ScanSize(1, ascans, depths)).paint(cells.build());
      for (int i = 0; i < labels.length; i++) {
        byte expected = expected(cells.build(), i / ascans, i % ascans);
        if (expected >= 0) {
          assertEquals(
              expected,
              labels[i],
              "seed " + seed + ", " + grid + ", depth " + i / ascans + ", A-scan " + i % ascans);
        }
      }
    }
  }

  private static TissueMaps patches(TissueMaps cells, SplittableRandom random) {
    for (int c = 0; c < cells.columns(); c++) {
      for (int r = 0; r < cells.rows(); r++) {
        RegionKind kind = List.of(RegionKind.values()).get(c / 3 % 4);
        int share = random.nextInt(256);
        cells.clear(r, c);
        cells.set(Tissue.valueOf(kind.name()), r, c, share).set(Tissue.ONL, r, c, 255 - share);
      }
    }
    return cells;
  }

  /** The label of a pixel; -1 where the probability is too near one half to tell. */
  private static byte expected(TissueMap map, int depth, int ascan) {
    double row = Math.max(0, Math.min(map.rows() - 1, map.row(depth)));
    double column = map.column(ascan);
    for (RegionKind kind : RegionKind.values()) {
      double sum = 0;
      for (int r = 0; r < map.rows(); r++) {
        for (int c = 0; c < map.columns(); c++) {
          double weight =
              Math.max(0, 1 - Math.abs(r - row)) * Math.max(0, 1 - Math.abs(c - column));
          sum += weight * map.probability(Tissue.valueOf(kind.name()), r, c);
        }
      }
      if (Math.abs(sum - 0.5) < 1e-5) {
        return -1;
      }
      if (sum > 0.5) {
        return kind.label();
      }
    }
    return 0;
  }
}
