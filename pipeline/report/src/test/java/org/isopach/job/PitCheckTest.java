package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.nerve.DiscOpening;
import org.junit.jupiter.api.Test;

class PitCheckTest {
  private static final int SIDE = 61;
  private static final double STEP_MM = 0.1;
  private static final FundusPoint MIDDLE = new FundusPoint(3, 3);

  @Test
  void aPitOverMembraneIsAFovea() {
    assertTrue(PitCheck.isFovea(MIDDLE, path(), Optional.of(membrane(0)), Optional.empty()));
  }

  @Test
  void aPitOverAHoleInTheMembraneIsNone() {
    assertFalse(PitCheck.isFovea(MIDDLE, path(), Optional.of(membrane(0.8)), Optional.empty()));
    // A hole that takes less than half of what lies within 0.3 mm, such as a vessel's shadow.
    assertTrue(PitCheck.isFovea(MIDDLE, path(), Optional.of(membrane(0.15)), Optional.empty()));
  }

  @Test
  void aPitNearTheOpeningIsNoneWhateverLiesUnderIt() {
    BoundarySet whole = membrane(0);

    assertFalse(PitCheck.isFovea(MIDDLE, path(), Optional.of(whole), Optional.of(opening(5.9))));
    assertTrue(PitCheck.isFovea(MIDDLE, path(), Optional.of(whole), Optional.of(opening(7.5))));
  }

  @Test
  void whereNothingWasLookedForThePitStands() {
    assertTrue(PitCheck.isFovea(MIDDLE, path(), Optional.empty(), Optional.empty()));
  }

  private static ScanPath path() {
    double[] x = new double[SIDE * SIDE];
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      x[i] = STEP_MM * (i % SIDE);
      y[i] = STEP_MM * Math.floorDiv(i, SIDE);
    }
    return ScanPath.ofPoints(
        SIDE, SIDE, x, y, new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, "2.25.1"));
  }

  /** Returns a membrane with a hole round the middle. */
  private static BoundarySet membrane(double holeMm) {
    ScanPath path = path();
    float[] depths = new float[SIDE * SIDE];
    float[] confidence = new float[depths.length];
    for (int i = 0; i < depths.length; i++) {
      boolean open = path.point(i / SIDE, i % SIDE).distanceMm(MIDDLE) < holeMm;
      depths[i] = open ? Float.NaN : 300;
      confidence[i] = open ? 0 : 1;
    }
    return new BoundarySet(
        Map.of(Boundary.BM, new BoundarySurface(SIDE, SIDE, depths, confidence)));
  }

  private static DiscOpening opening(double xMm) {
    double[] radii = new double[DiscOpening.SAMPLES];
    boolean[] seen = new boolean[radii.length];
    Arrays.fill(radii, 0.8);
    Arrays.fill(seen, true);
    return DiscOpening.of(
        new FundusPoint(xMm, 3), Laterality.RIGHT, radii, new double[radii.length], seen);
  }
}
