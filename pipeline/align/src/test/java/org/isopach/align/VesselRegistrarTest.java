package org.isopach.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Drawn lines stand for vessels; the transform and the motion are known exactly. */
class VesselRegistrarTest {
  private static final FundusFrame FIRST =
      new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, "2.25.11");
  private static final FundusFrame SECOND =
      new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, "2.25.12");
  private static final FundusPoint MIDDLE = new FundusPoint(5, 5);

  /** Half of an A-scan's distance is 5.9 µm; the 99th of 100 must lie within 40 µm. */
  @ParameterizedTest
  @CsvSource({"1, 0, 0", "1.05, 10, 0", "0.95, -10, 0", "1.02, 4, 90", "1, -7, 90"})
  void findsTurnScaleShiftAndMotion(double scale, double degrees, double direction) {
    FundusTransform truth =
        FundusTransform.of(scale, degrees, MIDDLE, new FundusPoint(0.21, -0.17));
    Drawing eye = new Drawing(7);
    double[] motion = motion(61, 5);
    EnFace baseline = eye.seen(raster(49, 512, 0, FIRST), FundusTransform.IDENTITY, null, 1);
    EnFace followUp = eye.seen(raster(61, 400, direction, SECOND), truth, motion, 2);

    VesselMatch match =
        new VesselRegistrar(baseline, followUp).match(SearchStart.near(MIDDLE, MIDDLE));

    VesselMatch.Found found = assertInstanceOf(VesselMatch.Found.class, match);
    List<Double> errors = new ArrayList<>();
    for (int f = 0; f < 61; f++) {
      for (int a = 0; a < 400; a += 5) {
        FundusPoint stated = followUp.path().point(f, a);
        FundusPoint moved =
            new FundusPoint(stated.xMm() + motion[2 * f], stated.yMm() + motion[2 * f + 1]);
        FundusPoint truePlace = truth.apply(moved);
        if (truePlace.distanceMm(MIDDLE) < 2.7) {
          errors.add(1000 * truePlace.distanceMm(found.placed().point(f, a)));
        }
      }
    }
    errors.sort(null);
    assertTrue(errors.size() > 2000);
    assertEquals(0, errors.get(errors.size() / 2), 10, "median in µm");
    assertEquals(0, errors.get(errors.size() * 99 / 100), 40, "99th percentile in µm");
    assertEquals(scale, found.transform().scale(), 0.01);
    assertEquals(degrees, found.transform().rotationDegrees(), 0.3);
    assertEquals(FIRST, found.placed().frame());
    assertEquals(ScanPattern.RASTER, found.placed().pattern());
    assertTrue(found.placeSdMm() > 0.002 && found.placeSdMm() < 0.03, "" + found.placeSdMm());
  }

  @Test
  void findsAPlaceFarFromWhereItLooksFirst() {
    FundusTransform truth = FundusTransform.of(1, 3, MIDDLE, new FundusPoint(0.9, -0.8));
    Drawing eye = new Drawing(9);
    EnFace baseline = eye.seen(raster(49, 512, 0, FIRST), FundusTransform.IDENTITY, null, 1);
    EnFace followUp = eye.seen(raster(49, 512, 0, SECOND), truth, null, 2);
    VesselRegistrar registrar = new VesselRegistrar(baseline, followUp);

    VesselMatch near = registrar.match(SearchStart.near(MIDDLE, MIDDLE));
    VesselMatch far = registrar.match(SearchStart.far(MIDDLE, MIDDLE));

    assertInstanceOf(VesselMatch.NotFound.class, near);
    VesselMatch.Found found = assertInstanceOf(VesselMatch.Found.class, far);
    assertEquals(0, 1000 * truth.apply(MIDDLE).distanceMm(found.transform().apply(MIDDLE)), 10);
  }

  @Test
  void refusesAnotherEye() {
    for (int other = 0; other < 6; other++) {
      EnFace baseline =
          new Drawing(20).seen(raster(49, 512, 0, FIRST), FundusTransform.IDENTITY, null, 1);
      EnFace followUp =
          new Drawing(30 + other)
              .seen(raster(49, 512, 0, SECOND), FundusTransform.IDENTITY, null, 2);
      VesselRegistrar registrar = new VesselRegistrar(baseline, followUp);

      assertInstanceOf(
          VesselMatch.NotFound.class, registrar.match(SearchStart.near(MIDDLE, MIDDLE)));
      assertInstanceOf(
          VesselMatch.NotFound.class, registrar.match(SearchStart.far(MIDDLE, MIDDLE)));
    }
  }

  @Test
  void refusesScansThatShareNoPlace() {
    Drawing eye = new Drawing(3);
    EnFace baseline = eye.seen(raster(49, 512, 0, FIRST), FundusTransform.IDENTITY, null, 1);
    FundusTransform away = FundusTransform.translation(new FundusPoint(5.5, 0));
    EnFace followUp = eye.seen(raster(49, 512, 0, SECOND), away, null, 2);

    VesselMatch match =
        new VesselRegistrar(baseline, followUp).match(SearchStart.stated(MIDDLE, away));

    assertInstanceOf(VesselMatch.NotFound.class, match);
  }

  /** A random walk of 8 µm from frame to frame and one jump of 60 µm that dies away. */
  private static double[] motion(int frames, long seed) {
    Random random = new Random(seed);
    double[] mm = new double[2 * frames];
    for (int i = 2; i < mm.length; i++) {
      mm[i] = 0.85 * mm[i - 2] + 0.008 * random.nextGaussian();
    }
    for (int k = 0; k < 6; k++) {
      mm[2 * (frames / 3 + k)] += 0.06 * Math.pow(0.7, k);
    }
    return mm;
  }

  private static ScanPath raster(int frames, int ascans, double degrees, FundusFrame frame) {
    FundusTransform turn = FundusTransform.of(1, degrees, MIDDLE, new FundusPoint(0, 0));
    List<FundusPoint> starts = new ArrayList<>();
    List<FundusPoint> ends = new ArrayList<>();
    for (int f = 0; f < frames; f++) {
      double y = 2 + 6.0 * f / (frames - 1);
      starts.add(turn.apply(new FundusPoint(2, y)));
      ends.add(turn.apply(new FundusPoint(8, y)));
    }
    return ScanPath.ofLines(starts, ends, ascans, frame);
  }

  /** Sixty bent lines 40 to 120 µm wide over 12 mm, and noise of a sixth of their darkness. */
  private static final class Drawing {
    private static final double STEP = 0.02;
    private static final int CELLS = 600;
    private final float[] ink = new float[CELLS * CELLS];

    Drawing(long seed) {
      Random random = new Random(seed);
      for (int line = 0; line < 60; line++) {
        double x = 12 * random.nextDouble();
        double y = 12 * random.nextDouble();
        double heading = 2 * Math.PI * random.nextDouble();
        double width = 0.04 + 0.08 * random.nextDouble();
        for (int step = 0; step < 500; step++) {
          stamp(x, y, width);
          heading += 0.06 * random.nextGaussian();
          x += 0.015 * Math.cos(heading);
          y += 0.015 * Math.sin(heading);
        }
      }
    }

    private void stamp(double x, double y, double width) {
      int reach = (int) Math.ceil(width / STEP);
      int column = (int) Math.round(x / STEP);
      int row = (int) Math.round(y / STEP);
      for (int r = Math.max(0, row - reach); r <= Math.min(CELLS - 1, row + reach); r++) {
        for (int c = Math.max(0, column - reach); c <= Math.min(CELLS - 1, column + reach); c++) {
          double d = Math.hypot(c * STEP - x, r * STEP - y) / (width / 2);
          ink[r * CELLS + c] = (float) Math.max(ink[r * CELLS + c], Math.exp(-d * d));
        }
      }
    }

    /**
     * Returns the drawing as a scan sees it whose places are taken by a transform to the drawing.
     */
    EnFace seen(ScanPath path, FundusTransform toDrawing, double[] motion, long noise) {
      Random random = new Random(noise);
      float[] values = new float[path.frames() * path.ascans()];
      for (int i = 0; i < values.length; i++) {
        int f = i / path.ascans();
        FundusPoint point = path.point(f, i % path.ascans());
        if (motion != null) {
          point = new FundusPoint(point.xMm() + motion[2 * f], point.yMm() + motion[2 * f + 1]);
        }
        FundusPoint at = toDrawing.apply(point);
        values[i] =
            (float) (3 * at(at.xMm() / STEP, at.yMm() / STEP) - 0.8 + 0.5 * random.nextGaussian());
      }
      return new EnFace(path, values);
    }

    private double at(double u, double v) {
      int c = (int) Math.floor(u);
      int r = (int) Math.floor(v);
      if (c < 0 || r < 0 || c + 1 >= CELLS || r + 1 >= CELLS) {
        return 0;
      }
      double p = u - c;
      double q = v - r;
      int i = r * CELLS + c;
      return (1 - q) * ((1 - p) * ink[i] + p * ink[i + 1])
          + q * ((1 - p) * ink[i + CELLS] + p * ink[i + CELLS + 1]);
    }
  }
}
