package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import org.apache.commons.math3.analysis.polynomials.PolynomialFunction;
import org.apache.commons.math3.fitting.PolynomialCurveFitter;
import org.apache.commons.math3.fitting.WeightedObservedPoints;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

/** Axial motion of frames, on a bowl of known shape. */
class FrameLevelsTest {
  private static final int FRAMES = 31;
  private static final int ASCANS = 200;
  private static final double AXIAL_UM = 3.87;

  /**
   * What is of second degree in the frames' order cannot be told from the shape of the eye, and is
   * left out on both sides.
   */
  @Test
  void shiftsOfFramesAreToldFromTheShapeOfTheEye() {
    double[] moved = new double[FRAMES];
    SplittableRandom random = new SplittableRandom(3);
    for (int f = 0; f < FRAMES; f++) {
      moved[f] = 30 * (random.nextDouble() + random.nextDouble() - 1);
    }
    double[] expected = withoutParabola(moved);
    double[] found = withoutParabola(found(moved));
    for (int f = 0; f < FRAMES; f++) {
      assertEquals(expected[f], found[f], 1, "frame " + f);
    }
  }

  private static double[] withoutParabola(double[] shifts) {
    WeightedObservedPoints points = new WeightedObservedPoints();
    for (int f = 0; f < FRAMES; f++) {
      points.add(f, shifts[f]);
    }
    PolynomialFunction parabola =
        new PolynomialFunction(PolynomialCurveFitter.create(2).fit(points.toList()));
    double[] rest = new double[FRAMES];
    for (int f = 0; f < FRAMES; f++) {
      rest[f] = shifts[f] - parabola.value(f);
    }
    return rest;
  }

  @Test
  void anEvenBowlHasNoShifts() {
    for (double shift : found(new double[FRAMES])) {
      assertEquals(0, shift, 0.05);
    }
  }

  private static double[] found(double[] moved) {
    ScanPath path =
        ScanPlan.raster(new ScanSize(FRAMES, ASCANS, 496), AXIAL_UM, 6, 6, 0)
            .path(new FundusPoint(1, 2), new FundusFrame(FundusFrame.Kind.PATIENT, "1.2.3"));
    float[] depth = new float[FRAMES * ASCANS];
    float[] sure = new float[depth.length];
    for (int i = 0; i < depth.length; i++) {
      FundusPoint away = path.point(i / ASCANS, i % ASCANS).minus(path.middle());
      double bowl = 900 + 40 * away.xMm() - 25 * away.yMm();
      bowl -= 8 * away.xMm() * away.xMm() + 5 * away.yMm() * away.yMm();
      depth[i] = (float) ((bowl + moved[i / ASCANS]) / AXIAL_UM);
      sure[i] = 1;
    }
    FrameLevels levels =
        FrameLevels.of(
            new BoundarySurface(FRAMES, ASCANS, depth, sure),
            path,
            AxialScale.ofMicrometresPerPixel(AXIAL_UM),
            FittedContour.circle(path.middle(), 0.9),
            0.25,
            0.3);
    double[] shifts = new double[FRAMES];
    for (int f = 0; f < FRAMES; f++) {
      shifts[f] = levels.shiftUm(f);
    }
    return shifts;
  }
}
