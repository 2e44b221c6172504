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

  @Test
  void keepsItsFigureWhereverItsAscansAreFoundToBe() {
    ScanPath raster =
        ScanPath.ofLines(
            List.of(new FundusPoint(0, 0), new FundusPoint(0, 1), new FundusPoint(0, 2)),
            List.of(new FundusPoint(4, 0), new FundusPoint(4, 1), new FundusPoint(4, 2)),
            5,
            FRAME);
    FundusFrame other = new FundusFrame(FundusFrame.Kind.PATIENT, "2.25.9");
    FundusTransform turn = FundusTransform.of(2, 90, new FundusPoint(0, 0), new FundusPoint(10, 0));

    ScanPath moved = raster.movedBy(turn, other);
    double[] x = new double[15];
    double[] y = new double[15];
    for (int i = 0; i < 15; i++) {
      int frame = i / 5;
      int ascan = i % 5;
      x[i] = ascan + (frame == 1 ? 0.3 * ascan : 0);
      y[i] = frame + (frame == 1 ? 0.1 * ascan : 0);
    }
    ScanPath bent = raster.placedAt(x, y, other);

    assertEquals(10, moved.xMm(0, 3), 1e-12);
    assertEquals(6, moved.yMm(0, 3), 1e-12);
    assertEquals(8, moved.xMm(1, 3), 1e-12);
    assertEquals(other, moved.frame());
    assertEquals(ScanPattern.RASTER, moved.pattern());
    assertEquals(3.9, bent.xMm(1, 3), 1e-12);
    assertEquals(1.3, bent.yMm(1, 3), 1e-12);
    assertEquals(ScanPattern.RASTER, bent.pattern());
  }
}
