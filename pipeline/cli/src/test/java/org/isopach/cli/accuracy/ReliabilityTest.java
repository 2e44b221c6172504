package org.isopach.cli.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class ReliabilityTest {
  private static Reliability of(double confidence, int right, int wrong) {
    Reliability reliability = new Reliability();
    for (int i = 0; i < right + wrong; i++) {
      reliability.add(confidence, i < right ? 0.5 : -7);
    }
    return reliability;
  }

  @Test
  void rightAsOftenAsSaidIsCalibrated() {
    Reliability good = Reliability.sum(List.of(of(0.9, 9, 1), of(0.2, 1, 4), of(0.6, 3, 2)));
    assertEquals(0, good.miscalibration(), 1e-12);
    assertEquals(0.9, good.rightShare(17, 19), 1e-12);
    assertEquals(0.9, good.meanConfidence(17, 19), 1e-12);
    assertEquals(20, good.count(0, Reliability.STEPS));
  }

  /** Four at 0.8 of which two are right miss by 0.3, sixteen at 0.5 by 0: together 0.3 × 4 / 20. */
  @Test
  void missesAreWeighedByTheirNumber() {
    Reliability bold = Reliability.sum(List.of(of(0.8, 2, 2), of(0.5, 8, 8)));
    assertEquals(0.3 * 4 / 20, bold.miscalibration(), 1e-12);
  }

  @Test
  void twoPixelsAreRightAndMoreIsNot() {
    Reliability edge = new Reliability();
    edge.add(1, -2);
    edge.add(1, 2.01);
    assertEquals(0.5, edge.rightShare(19, 20));
    assertTrue(Double.isNaN(edge.rightShare(0, 19)));
    assertTrue(Double.isNaN(new Reliability().miscalibration()));
  }
}
