package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

/** Depth 0 is the centre of the first pixel, in the truth and in what is found. */
class DepthConventionTest {
  /**
   * Where a line is put within an edge moves the inner and the outer boundary in opposite
   * directions; a wrong pixel convention moves both alike, by half a pixel. So their mean shift
   * shows the convention alone. The tolerance is half of that.
   */
  @Test
  void bothBoundariesAreNotShiftedTogether() throws InterruptedException {
    PhantomScan phantom = PhantomScan.of(PhantomParameters.draw(2004), ScanPlan.coarse());
    ExecutorService pool = Executors.newFixedThreadPool(2);
    try {
      BoundarySet found =
          new RetinaSegmenter(pool, 2).segment(phantom.scan()).boundaries().orElseThrow();
      double shift = 0;
      for (Boundary boundary : List.of(Boundary.ILM, Boundary.BM)) {
        shift += meanShiftPx(found.surface(boundary).orElseThrow(), phantom, boundary) / 2;
      }
      assertEquals(0, shift, 0.25, "pixels");
    } finally {
      pool.shutdownNow();
    }
  }

  private static double meanShiftPx(
      BoundarySurface surface, PhantomScan phantom, Boundary boundary) {
    double sum = 0;
    int n = 0;
    for (int f = 0; f < surface.frames(); f++) {
      for (int a = 0; a < surface.ascans(); a++) {
        double shift = surface.depthPx(f, a) - phantom.truth().depthPx(boundary, f, a);
        if (!Double.isNaN(shift)) {
          sum += shift;
          n++;
        }
      }
    }
    return sum / n;
  }
}
