package org.isopach.analysis.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.isopach.analysis.testing.Paths;
import org.junit.jupiter.api.Test;

class ScanPathTest {
  private static final FundusFrame FRAME = new FundusFrame(FundusFrame.Kind.PATIENT, "");

  @Test
  void drawsALineBackwardsThroughTheSamePointsToTheLastBit() {
    FundusPoint a = new FundusPoint(-2.9731, 0.1137);
    FundusPoint b = new FundusPoint(2.8193, -1.7719);

    ScanPath forth = ScanPath.ofLines(List.of(a), List.of(b), 511, FRAME);
    ScanPath back = ScanPath.ofLines(List.of(b), List.of(a), 511, FRAME);

    assertEquals(a, forth.point(0, 0));
    assertEquals(b, forth.point(0, 510));
    for (int j = 0; j < 511; j++) {
      assertEquals(forth.point(0, j), back.point(0, 510 - j));
    }
  }

  @Test
  void knowsRastersAndRadialFramesOfAnyAngle() {
    FundusPoint middle = new FundusPoint(4.5, 4.25);

    assertEquals(ScanPattern.RASTER, Paths.raster(Paths.even(5, 1), 16, 6, 37, middle).pattern());
    assertEquals(ScanPattern.RADIAL, Paths.radial(6, 16, 3, middle).pattern());
    assertEquals(
        ScanPattern.SINGLE_LINE, Paths.raster(new double[] {0}, 16, 6, 37, middle).pattern());
  }
}
