package org.isopach.cli.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class OverlapTest {
  @Test
  void squaresMovedByHalfASideShareHalfOfBoth() {
    Overlap overlap = new Overlap();
    for (int x = 0; x < 15; x++) {
      for (int y = 0; y < 10; y++) {
        overlap.add(x < 10, x >= 5);
      }
    }
    assertEquals(0.5, overlap.dice());
    assertEquals(100, overlap.expected());
    assertEquals(100, overlap.found());
  }

  /** Two spheres of radius r, d apart, share π (4r + d) (2r − d)² / 12 (from memory). */
  @Test
  void twoSpheresShareTheirLens() {
    int r = 24;
    int d = 12;
    Overlap overlap = new Overlap();
    for (int x = -r; x <= r + d; x++) {
      for (int y = -r; y <= r; y++) {
        for (int z = -r; z <= r; z++) {
          int round = y * y + z * z;
          overlap.add(x * x + round <= r * r, (x - d) * (x - d) + round <= r * r);
        }
      }
    }
    double lens = Math.PI * (4 * r + d) * (2 * r - d) * (2 * r - d) / 12;
    assertEquals(lens / (4 * Math.PI * r * r * r / 3), overlap.dice(), 0.005);
  }

  @Test
  void nothingOnEitherSideHasNoFigure() {
    Overlap overlap = new Overlap();
    overlap.add(false, false);
    assertTrue(Double.isNaN(overlap.dice()));
    overlap.add(false, true);
    assertEquals(0, overlap.dice());
  }
}
