package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleBinaryOperator;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySurface;
import org.junit.jupiter.api.Test;

/** The dip in a plane, by surfaces of closed form. Spacings differ: 0.1 mm along, 0.2 mm across. */
class DipFitTest {
  private static final DipFit.Shape SHAPE = new DipFit.Shape(1.5, 0.5, DipFit.Background.PLANE);
  private static final FundusPoint PIT = new FundusPoint(0.3, -0.4);
  private static final int FRAMES = 21;
  private static final int ASCANS = 41;

  @Test
  void findsDepthOfADipInATiltedPlane() {
    DipFit fit = DipFit.at(samples((x, y) -> 300 + 10 * x - 7 * y - dip(x, y)), PIT, SHAPE, 50);
    assertNotNull(fit);
    assertEquals(80, fit.dip(), 0.01);
    assertEquals(1, fit.explained(), 1e-6);
  }

  @Test
  void gainsMostAtTheDip() {
    ThicknessSamples samples = samples((x, y) -> 300 + 10 * x - 7 * y - dip(x, y));
    double gain = DipFit.at(samples, PIT, SHAPE, 50).gain();
    for (double[] off : new double[][] {{0.2, 0}, {-0.2, 0}, {0, 0.2}, {0, -0.2}}) {
      FundusPoint aside = PIT.plus(new FundusPoint(off[0], off[1]));
      assertTrue(DipFit.at(samples, aside, SHAPE, 50).gain() < gain, Arrays.toString(off));
    }
  }

  @Test
  void aBumpIsNegativeAndAPlaneIsNothing() {
    assertEquals(-80, DipFit.at(samples((x, y) -> 300 + dip(x, y)), PIT, SHAPE, 50).dip(), 0.01);
    assertEquals(0, DipFit.at(samples((x, y) -> 300 + 10 * x), PIT, SHAPE, 50).dip(), 0.01);
  }

  @Test
  void needsSamples() {
    assertNull(DipFit.at(samples((x, y) -> 300), PIT, SHAPE, 1e6));
  }

  private static double dip(double x, double y) {
    double dx = x - PIT.xMm();
    double dy = y - PIT.yMm();
    return 80 * Math.exp(-(dx * dx + dy * dy) / (2 * 0.5 * 0.5));
  }

  private static ThicknessSamples samples(DoubleBinaryOperator micrometres) {
    AxialScale axial = AxialScale.ofMicrometresPerPixel(4);
    List<FundusPoint> starts = new ArrayList<>();
    List<FundusPoint> ends = new ArrayList<>();
    for (int f = 0; f < FRAMES; f++) {
      starts.add(new FundusPoint(-2, 0.2 * (f - 10)));
      ends.add(new FundusPoint(2, 0.2 * (f - 10)));
    }
    FundusFrame frame = new FundusFrame(FundusFrame.Kind.PATIENT, "1.2.3");
    ScanPath path = ScanPath.ofLines(starts, ends, ASCANS, frame);
    float[] inner = new float[FRAMES * ASCANS];
    float[] outer = new float[FRAMES * ASCANS];
    float[] sure = new float[FRAMES * ASCANS];
    for (int i = 0; i < inner.length; i++) {
      FundusPoint p = path.point(i / ASCANS, i % ASCANS);
      inner[i] = 100;
      outer[i] = 100 + (float) (micrometres.applyAsDouble(p.xMm(), p.yMm()) / 4);
      sure[i] = 1;
    }
    return ThicknessSamples.between(
        new BoundarySurface(FRAMES, ASCANS, inner, sure),
        new BoundarySurface(FRAMES, ASCANS, outer, sure),
        path,
        axial,
        0.1);
  }
}
