package org.isopach.cli.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.junit.jupiter.api.Test;

class TortureTest {
  private static Optional<String> fault(float depth, TortureCase drawn) {
    int n = drawn.plan().size().frames() * drawn.plan().size().ascans();
    float[] depths = new float[n];
    float[] confidence = new float[n];
    depths[n - 1] = depth;
    BoundarySurface surface =
        new BoundarySurface(
            drawn.plan().size().frames(), drawn.plan().size().ascans(), depths, confidence);
    return TortureOutcome.fault(new BoundarySet(Map.of(Boundary.BM, surface)), drawn);
  }

  @Test
  void noticesDepthsOutOfTheFrame() {
    TortureCase drawn = TortureCase.draw(3);
    int depths = drawn.plan().size().depths();
    assertTrue(fault(depths - 1, drawn).isEmpty());
    assertTrue(fault(Float.NaN, drawn).isEmpty());
    assertTrue(fault(depths - 0.5f, drawn).isPresent());
  }

  @Test
  void equalSeedsMakeEqualCases() {
    assertEquals(TortureCase.draw(17), TortureCase.draw(17));
  }
}
