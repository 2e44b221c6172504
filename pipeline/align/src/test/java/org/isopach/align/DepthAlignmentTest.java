package org.isopach.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.junit.jupiter.api.Test;

/** Membranes are planes, whose depth at any place is known in closed form. */
class DepthAlignmentTest {
  private static final FundusFrame FRAME = new FundusFrame(FundusFrame.Kind.PATIENT, "2.25.5");

  @Test
  void isTheDifferenceOfTwoPlanesAtOnePlace() {
    FundusPoint here = new FundusPoint(0, 0);
    FundusPoint there = new FundusPoint(10, -4);
    DepthAlignment.Side baseline = side(here, 4, 21, 3.0, 500, 30);
    DepthAlignment.Side followUp = side(there, 3, 11, 2.0, 400, -20);

    DepthAlignment depths = DepthAlignment.of(baseline, followUp);

    for (int a = 1; a < 10; a++) {
      double x = followUp.path().xMm(1, a) - 10;
      assertEquals(100 + 50 * x, depths.shiftUm(1, a), 0.01, "A-scan " + a);
    }
    assertEquals(100, depths.medianUm().orElseThrow(), 0.01);
  }

  @Test
  void isNothingBesideTheBaselineAndWhereAMembraneIsMissing() {
    DepthAlignment.Side baseline = side(new FundusPoint(0, 0), 4, 21, 3.0, 500, 0);
    DepthAlignment.Side away =
        new DepthAlignment.Side(
            baseline.path(), new FundusPoint(40, 0), baseline.axial(), baseline.boundaries());
    DepthAlignment.Side blank =
        new DepthAlignment.Side(
            baseline.path(),
            baseline.origin(),
            baseline.axial(),
            new BoundarySet(
                Map.of(Boundary.ILM, baseline.boundaries().surface(Boundary.BM).orElseThrow())));

    assertTrue(Double.isNaN(DepthAlignment.of(baseline, away).shiftUm(1, 5)));
    assertTrue(Double.isNaN(DepthAlignment.of(baseline, blank).shiftUm(1, 5)));
    assertEquals(OptionalDouble.empty(), DepthAlignment.of(baseline, away).medianUm());
  }

  /** Frames 0.3 mm apart and 2 mm long about a place; the membrane slopes to the right. */
  private static DepthAlignment.Side side(
      FundusPoint about, int frames, int ascans, double axialUm, double um, double umPerMm) {
    List<FundusPoint> starts = new ArrayList<>();
    List<FundusPoint> ends = new ArrayList<>();
    for (int f = 0; f < frames; f++) {
      double y = about.yMm() + 0.3 * (f - (frames - 1) / 2.0);
      starts.add(new FundusPoint(about.xMm() - 1, y));
      ends.add(new FundusPoint(about.xMm() + 1, y));
    }
    ScanPath path = ScanPath.ofLines(starts, ends, ascans, FRAME);
    float[] depth = new float[frames * ascans];
    float[] sure = new float[depth.length];
    for (int i = 0; i < depth.length; i++) {
      double x = path.xMm(i / ascans, i % ascans) - about.xMm();
      depth[i] = (float) ((um + umPerMm * x) / axialUm);
      sure[i] = 1;
    }
    return new DepthAlignment.Side(
        path,
        about,
        AxialScale.ofMicrometresPerPixel(axialUm),
        new BoundarySet(Map.of(Boundary.BM, new BoundarySurface(frames, ascans, depth, sure))));
  }
}
