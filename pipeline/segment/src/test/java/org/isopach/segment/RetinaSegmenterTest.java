package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * The segmentation against the phantom's truth, and against scans that must not give a number. The
 * limits are the project's own bars for typical signal; {@code bin/accuracy} measures them on many
 * eyes.
 */
class RetinaSegmenterTest {
  private static final double MICROMETRES_PER_PIXEL = ScanPlan.coarse().axialUm();

  private static ExecutorService pool;
  private static PhantomScan phantom;
  private static OctScan scan;
  private static SegmentationResult result;

  @BeforeAll
  static void segmentOnce() throws InterruptedException {
    pool = Executors.newFixedThreadPool(2);
    phantom = PhantomScan.of(PhantomParameters.draw(2001), ScanPlan.coarse());
    scan = Scans.rendered(phantom.scan());
    result = new RetinaSegmenter(pool, 2).segment(scan);
  }

  @AfterAll
  static void stop() {
    pool.shutdownNow();
  }

  @Test
  void innerLimitingMembraneIsWithinTwoMicrometresOnAverage() {
    assertTrue(meanError(Boundary.ILM) <= 2.0, () -> "was " + meanError(Boundary.ILM));
  }

  @Test
  void bruchsMembraneIsWithinThreeMicrometresOnAverage() {
    assertTrue(meanError(Boundary.BM) <= 3.0, () -> "was " + meanError(Boundary.BM));
  }

  @Test
  void ellipsoidZoneIsWithinThreeMicrometresOnAverage() {
    assertTrue(meanError(Boundary.EZ) <= 3.0, () -> "was " + meanError(Boundary.EZ));
  }

  @Test
  void foveaIsWithinSixtyMicrometres() {
    double distance = result.fovea().orElseThrow().point().distanceMm(phantom.truth().fovea());
    assertTrue(distance <= 0.060, () -> "was " + distance + " mm away");
  }

  @Test
  void nothingIsSaidOfAGoodScan() {
    assertEquals(List.of(), result.findings());
  }

  @Test
  void resultDoesNotDependOnTheNumberOfThreads() throws InterruptedException {
    SegmentationResult single = new RetinaSegmenter(pool, 1).segment(scan);
    assertEquals(single.fovea(), result.fovea());
    for (Boundary boundary : result.boundaries().orElseThrow().boundaries()) {
      Scans.assertSame(surface(single, boundary), surface(result, boundary));
    }
  }

  @Test
  void mirroredEyeGivesMirroredDepthsToTheLastBit() throws InterruptedException {
    SegmentationResult mirrored = new RetinaSegmenter(pool, 2).segment(Scans.otherEye(scan));
    for (Boundary boundary : result.boundaries().orElseThrow().boundaries()) {
      Scans.assertMirrored(surface(result, boundary), surface(mirrored, boundary));
    }
    FundusPoint here = result.fovea().orElseThrow().point();
    FundusPoint there = mirrored.fovea().orElseThrow().point();
    assertEquals(-here.xMm(), there.xMm(), 0);
    assertEquals(here.yMm(), there.yMm(), 0);
  }

  @Test
  void orderOfTheAscansHardlyMatters() throws InterruptedException {
    SegmentationResult backwards = new RetinaSegmenter(pool, 2).segment(Scans.mirrored(scan));
    double worst = 0;
    for (Boundary boundary : List.of(Boundary.ILM, Boundary.BM)) {
      worst =
          Math.max(
              worst,
              Scans.meanMirrorDistance(surface(result, boundary), surface(backwards, boundary)));
    }
    double meanMicrometres = worst * MICROMETRES_PER_PIXEL;
    assertTrue(meanMicrometres < 0.3, () -> "was " + meanMicrometres + " µm");
  }

  @Test
  void depthMovesWithThePicture() throws InterruptedException {
    int down = 12;
    SegmentationResult lower = new RetinaSegmenter(pool, 2).segment(Scans.lowered(scan, down));
    BoundarySurface before = surface(result, Boundary.BM);
    BoundarySurface after = surface(lower, Boundary.BM);
    double sum = 0;
    for (int a = 0; a < before.ascans(); a++) {
      sum += after.depthPx(9, a) - before.depthPx(9, a);
    }
    assertEquals(down, sum / before.ascans(), 0.05);
  }

  @Test
  void upsideDownScanIsRefused() throws InterruptedException {
    assertRefused(Scans.upsideDown(scan), FindingKind.UPSIDE_DOWN);
  }

  @Test
  void constantImageIsRefused() throws InterruptedException {
    assertRefused(
        Scans.withFrames(scan, (frame, into) -> java.util.Arrays.fill(into, 77)),
        FindingKind.CONSTANT_IMAGE);
  }

  @Test
  void noiseWithoutRetinaIsRefused() throws InterruptedException {
    FrameSource noise =
        (frame, into) -> {
          Random random = new Random(frame);
          for (int i = 0; i < into.length; i++) {
            into[i] = (float) Math.max(0, Math.rint(30 + 12 * random.nextGaussian()));
          }
        };
    assertRefused(Scans.withFrames(scan, noise), FindingKind.NO_RETINA);
  }

  @Test
  void unreadableFramesAreLeftOutAndNamed() throws InterruptedException {
    FrameSource broken =
        (frame, into) -> {
          if (frame == 4) {
            throw new FrameReadException("fragment missing", null);
          }
          scan.frames().read(frame, into);
        };
    SegmentationResult partial =
        new RetinaSegmenter(pool, 2).segment(Scans.withFrames(scan, broken));
    assertEquals(FindingKind.FRAMES_UNREADABLE, partial.findings().get(0).kind());
    assertTrue(partial.findings().get(0).detail().contains("4"));
    assertTrue(Float.isNaN(surface(partial, Boundary.ILM).depthPx(4, 100)));
    assertTrue(!Float.isNaN(surface(partial, Boundary.ILM).depthPx(5, 100)));
  }

  @Test
  void darkFrameGivesNoDepths() throws InterruptedException {
    FrameSource blink =
        (frame, into) -> {
          scan.frames().read(frame, into);
          if (frame == 7) {
            Random random = new Random(7);
            for (int i = 0; i < into.length; i++) {
              into[i] = (float) Math.max(0, Math.rint(26 + 9 * random.nextGaussian()));
            }
          }
        };
    SegmentationResult blinked =
        new RetinaSegmenter(pool, 2).segment(Scans.withFrames(scan, blink));
    for (int a = 0; a < scan.size().ascans(); a++) {
      assertTrue(Float.isNaN(surface(blinked, Boundary.ILM).depthPx(7, a)));
    }
  }

  @Test
  void saturatedWedgeIsNotTakenForTissue() throws InterruptedException {
    int ascans = scan.size().ascans();
    FrameSource wedge =
        (frame, into) -> {
          scan.frames().read(frame, into);
          for (int a = 0; a < ascans; a++) {
            for (int d = 0; d < 30 - a / 20; d++) {
              into[d * ascans + a] = (float) scan.grey().high();
            }
          }
        };
    SegmentationResult wedged = new RetinaSegmenter(pool, 2).segment(Scans.withFrames(scan, wedge));
    double error = meanError(surface(wedged, Boundary.ILM), Boundary.ILM);
    assertTrue(error <= 2.0, () -> "was " + error);
  }

  @Test
  void singleLineGivesBoundariesButNoFovea() throws InterruptedException {
    ScanPlan plan = ScanPlan.line(512, 496, 3.87, 6.0, 0);
    PhantomScan line = PhantomScan.of(PhantomParameters.draw(2002), plan);
    SegmentationResult found = new RetinaSegmenter(pool, 2).segment(line.scan());
    assertEquals(Optional.empty(), found.fovea());
    assertEquals(List.of(), found.findings());
    double sum = 0;
    for (int a = 0; a < 512; a++) {
      sum +=
          Math.abs(
              surface(found, Boundary.ILM).depthPx(0, a)
                  - line.truth().depthPx(Boundary.ILM, 0, a));
    }
    assertTrue(sum / 512 * 3.87 <= 3.0);
  }

  @Test
  void placementIsNotNeededForBoundaries() throws InterruptedException {
    SegmentationResult found = new RetinaSegmenter(pool, 2).segment(Scans.withoutPath(scan));
    assertTrue(meanError(surface(found, Boundary.BM), Boundary.BM) <= 3.0);
    assertEquals(Optional.empty(), found.fovea());
  }

  @Test
  void needsAThread() {
    assertThrows(IllegalArgumentException.class, () -> new RetinaSegmenter(pool, 0));
  }

  @Test
  void foveaIsFoundInEitherEyeFarFromTheMiddle() throws InterruptedException {
    OctScan moved = Scans.pathMoved(scan, new FundusPoint(2.5, -1.25));
    FundusPoint there = new RetinaSegmenter(pool, 2).segment(moved).fovea().orElseThrow().point();
    FundusPoint here = result.fovea().orElseThrow().point();
    assertEquals(2.5, there.xMm() - here.xMm(), 1e-9);
    assertEquals(-1.25, there.yMm() - here.yMm(), 1e-9);
  }

  private static void assertRefused(OctScan bad, FindingKind kind) throws InterruptedException {
    SegmentationResult refused = new RetinaSegmenter(pool, 2).segment(bad);
    assertEquals(Optional.<BoundarySet>empty(), refused.boundaries());
    assertEquals(kind, refused.findings().get(0).kind());
    assertEquals(scan.document().location(), refused.findings().get(0).subject());
  }

  private static BoundarySurface surface(SegmentationResult from, Boundary boundary) {
    return from.boundaries().orElseThrow().surface(boundary).orElseThrow();
  }

  private static double meanError(Boundary boundary) {
    return meanError(surface(result, boundary), boundary);
  }

  /** Mean absolute error in µm over A-scans with a truth, blinks left out. */
  private static double meanError(BoundarySurface surface, Boundary boundary) {
    PhantomTruth truth = phantom.truth();
    double sum = 0;
    int n = 0;
    for (int f = 0; f < surface.frames(); f++) {
      for (int a = 0; a < surface.ascans(); a++) {
        double expected = truth.depthPx(boundary, f, a);
        if (!truth.blink(f) && !Double.isNaN(expected) && !Float.isNaN(surface.depthPx(f, a))) {
          sum += Math.abs(surface.depthPx(f, a) - expected);
          n++;
        }
      }
    }
    assertTrue(n > 0.95 * surface.frames() * surface.ascans() * 0.9, "too few depths");
    return sum / n * MICROMETRES_PER_PIXEL;
  }
}
