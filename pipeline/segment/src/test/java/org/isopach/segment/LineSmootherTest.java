package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Smoothing by closed forms. */
class LineSmootherTest {
  private static final double SIGMA = 4;

  @Test
  void leavesAStraightLineAsItIsUpToItsEnds() {
    float[] line = new float[60];
    for (int i = 0; i < line.length; i++) {
      line[i] = 100 + 0.75f * i;
    }
    assertArrayEquals(line, LineSmoother.smooth(line, SIGMA), 1e-3f);
  }

  /** A Gaussian of weight 1 has 1 / (sigma √(2π)) in its middle; cut at 3 sigma, 0.27 % more. */
  @Test
  void spreadsAPeakByItsSigma() {
    float[] line = new float[101];
    line[50] = 1;
    float[] smooth = LineSmoother.smooth(line, SIGMA);
    double peak = 1 / (SIGMA * Math.sqrt(2 * Math.PI));
    assertEquals(peak, smooth[50], 0.005 * peak);
    assertEquals(peak * Math.exp(-0.5), smooth[54], 0.005 * peak);
  }

  @Test
  void heedsTheClearPlacesMore() {
    float[] line = new float[41];
    float[] weight = new float[41];
    for (int i = 0; i < line.length; i++) {
      line[i] = i % 2 == 0 ? 10 : 20;
      weight[i] = i % 2 == 0 ? 3 : 1;
    }
    assertEquals(12.5, LineSmoother.smooth(line, weight, SIGMA)[20], 0.05);
  }
}
