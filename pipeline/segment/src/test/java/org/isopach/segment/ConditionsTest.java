package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.finding.FindingKind.Gravity;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.Condition;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A few frames of every condition the phantom knows: nothing fails, nothing crosses, and the
 * retina's two sides are found in most A-scans. How exactly is measured by {@code bin/accuracy}.
 */
class ConditionsTest {
  private static final ScanPlan PLAN =
      ScanPlan.raster(new ScanSize(3, 512, 496), 3.87, 6, 1.5, 0);
  private static final long[] SEEDS = {3101, 3102};

  /** What must have a depth, as a share of all A-scans. */
  private static final double MOST = 0.5;

  /** The retina is not in the frame, or twice over itself, where these are strong. */
  private static final Set<Condition> MAY_BE_REFUSED =
      EnumSet.of(Condition.LEAVING_FRAME, Condition.MIRROR_ARTEFACT);

  private static ExecutorService pool;

  @BeforeAll
  static void start() {
    pool = Executors.newFixedThreadPool(2);
  }

  @AfterAll
  static void stop() {
    pool.shutdownNow();
  }

  @ParameterizedTest
  @EnumSource(Condition.class)
  void isMeasuredOrRefusedForAReason(Condition condition) throws InterruptedException {
    for (long seed : SEEDS) {
      PhantomScan phantom = PhantomScan.of(condition.parameters(seed), PLAN);
      SegmentationResult result = new RetinaSegmenter(pool, 2).segment(phantom.scan());
      String name = condition + " of seed " + seed;
      assertEquals(PLAN.size().frames(), result.quality().frames().size(), name);
      if (result.boundaries().isEmpty()) {
        assertTrue(
            result.findings().stream().anyMatch(f -> f.kind().gravity() == Gravity.NOT_MEASURED),
            name);
        assertTrue(MAY_BE_REFUSED.contains(condition), name + ": " + result.findings());
        continue;
      }
      check(result.boundaries().get(), name);
      if (!MAY_BE_REFUSED.contains(condition)) {
        for (Boundary boundary : EnumSet.of(Boundary.ILM, Boundary.BM)) {
          double found =
              result.boundaries().get().surface(boundary).orElseThrow().coveredFraction();
          assertTrue(found > MOST, name + ": " + boundary + " in " + found + " of the A-scans");
        }
      }
    }
  }

  private static void check(BoundarySet boundaries, String name) {
    assertEquals(EnumSet.allOf(Boundary.class), boundaries.boundaries(), name);
    for (int f = 0; f < PLAN.size().frames(); f++) {
      for (int a = 0; a < PLAN.size().ascans(); a++) {
        float above = 0;
        for (Boundary boundary : boundaries.boundaries()) {
          float depth = boundaries.surface(boundary).orElseThrow().depthPx(f, a);
          assertFalse(Float.isInfinite(depth), name);
          if (!Float.isNaN(depth)) {
            assertTrue(depth >= above && depth <= PLAN.size().depths() - 1, name);
            above = depth;
          }
        }
      }
    }
  }
}
