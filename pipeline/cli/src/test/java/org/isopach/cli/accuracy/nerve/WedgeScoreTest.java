package org.isopach.cli.accuracy.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.isopach.analysis.nerve.ProfileDefect;
import org.junit.jupiter.api.Test;

class WedgeScoreTest {
  /** A loss of 10 µm from 350 to 8 degrees, in samples of 2 degrees: its middle is 359. */
  private static double[] lossAcrossZero() {
    double[] loss = new double[180];
    for (int i = -5; i <= 4; i++) {
      loss[(i + 180) % 180] = 10;
    }
    return loss;
  }

  private static ProfileDefect defect(double from, double width) {
    return new ProfileDefect(from, width, 8, 12, 8 * width, 0.001);
  }

  @Test
  void middleOfALossMayLieAcrossZero() {
    assertEquals(359, WedgeScore.middleDegrees(lossAcrossZero()), 1e-9);
  }

  @Test
  void placeIsSignedAcrossZero() {
    WedgeScore score = WedgeScore.of(List.of(defect(355, 14), defect(100, 9)), lossAcrossZero());
    assertTrue(score.found());
    assertEquals(3, score.placedDegrees(), 1e-9, "found middle 2, true middle 359");
    assertEquals(12, score.depthUm());
    assertEquals(1, score.besides());
  }

  @Test
  void stretchBesideTheMiddleIsNoFind() {
    WedgeScore score = WedgeScore.of(List.of(defect(1, 8)), lossAcrossZero());
    assertFalse(score.found());
    assertTrue(Double.isNaN(score.placedDegrees()));
    assertEquals(1, score.besides());
  }
}
