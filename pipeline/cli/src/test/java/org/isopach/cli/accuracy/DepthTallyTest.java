package org.isopach.cli.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class DepthTallyTest {
  private static final double NONE = Double.NaN;

  @Test
  void countsEveryAscanOnce() {
    DepthTally first = new DepthTally();
    first.add(100, 103, 0.9);
    first.add(100, 95, 0.9);
    first.add(100, 121, 0.4); // gross, warned
    first.add(100, 60, 0.5); // gross, not warned
    first.add(100, NONE, 0);
    DepthTally second = new DepthTally();
    second.add(NONE, 40, 0.8);
    second.add(NONE, 40, 0.1);
    second.add(NONE, NONE, 0);
    second.add(100, 120, 1); // 20 µm is not yet gross
    DepthTally all = DepthTally.sum(List.of(first, second));
    assertEquals((3 + 5 + 21 + 40 + 20) / 5.0, all.meanAbsolute(), 1e-12);
    assertEquals((3 - 5 + 21 - 40 + 20) / 5.0, all.bias(), 1e-12);
    assertEquals(2, all.gross());
    assertEquals(2 / 6.0, all.grossShare(), 1e-12);
    assertEquals(0.5, all.warnedShare(), 1e-12);
    assertEquals(1 / 6.0, all.missingShare(), 1e-12);
    assertEquals(2 / 3.0, all.inventedShare(), 1e-12);
    assertEquals(1 / 3.0, all.inventedSilentlyShare(), 1e-12);
  }

  @Test
  void withoutAscansThereIsNoFigure() {
    DepthTally empty = new DepthTally();
    assertTrue(Double.isNaN(empty.meanAbsolute()));
    assertTrue(Double.isNaN(empty.grossShare()));
    assertTrue(Double.isNaN(empty.warnedShare()));
  }
}
