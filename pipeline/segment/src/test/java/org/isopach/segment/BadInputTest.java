package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.quality.FrameState;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Scans that are no retina, or none seen the right way, are refused with the reason. */
class BadInputTest {
  private static final ScanPlan PLAN =
      ScanPlan.raster(new ScanSize(5, 256, 496), 3.87, 6.0, 5.0, 0);

  private static ExecutorService pool;
  private static OctScan scan;

  @BeforeAll
  static void render() {
    pool = Executors.newFixedThreadPool(2);
    scan = Scans.rendered(PhantomScan.of(PhantomParameters.draw(2101), PLAN).scan());
  }

  @AfterAll
  static void stop() {
    pool.shutdownNow();
  }

  @Test
  void saturatedScan() throws InterruptedException {
    assertRefused(BadScans.amplified(scan, 4), FindingKind.SATURATED);
  }

  @Test
  void fullyBrightScan() throws InterruptedException {
    assertRefused(
        Scans.withFrames(scan, (frame, into) -> Arrays.fill(into, 255)), FindingKind.SATURATED);
  }

  @Test
  void invertedGreys() throws InterruptedException {
    assertRefused(BadScans.inverted(scan), FindingKind.GREY_INVERTED);
  }

  @Test
  void turnedFrames() throws InterruptedException {
    assertRefused(BadScans.turned(scan), FindingKind.ROTATED);
  }

  @Test
  void tiltedRetinaIsNotTakenForATurnedOne() throws InterruptedException {
    PhantomParameters tilted = PhantomParameters.draw(2102).withTilt(150, 60);
    assertTrue(segment(PhantomScan.of(tilted, PLAN).scan()).boundaries().isPresent());
  }

  @Test
  void cornea() throws InterruptedException {
    assertRefused(BadScans.cornea(scan, 6), FindingKind.ANTERIOR_SEGMENT);
  }

  @Test
  void coarseDepth() throws InterruptedException {
    assertRefused(withAxial(scan, 38.7), FindingKind.DEPTH_TOO_COARSE);
  }

  @Test
  void tooLittleDepth() throws InterruptedException {
    assertRefused(withAxial(scan, 0.2), FindingKind.NO_RETINA);
  }

  /** A-scans a hundred times further apart than depth pixels, and frames likewise. */
  @Test
  void anisotropyOfOneToAHundredHasBoundariesOrNone() throws InterruptedException {
    ScanPlan coarse = ScanPlan.raster(new ScanSize(16, 16, 496), 3.87, 5.8, 5.8, 0);
    SegmentationResult found = segment(PhantomScan.of(PhantomParameters.draw(2103), coarse).scan());
    assertEquals(16, found.quality().frames().size());
    if (found.boundaries().isEmpty()) {
      assertEquals(
          FindingKind.Gravity.NOT_MEASURED,
          found.findings().get(found.findings().size() - 1).kind().gravity());
    }
  }

  private static OctScan withAxial(OctScan from, double micrometres) {
    return new OctScan(
        from.identity(),
        from.document(),
        from.laterality(),
        from.size(),
        AxialScale.ofMicrometresPerPixel(micrometres),
        from.path(),
        from.reference(),
        from.statedAxialLengthMm(),
        from.grey(),
        from.frames());
  }

  private static SegmentationResult segment(OctScan bad) throws InterruptedException {
    return new RetinaSegmenter(pool, 2).segment(bad);
  }

  private static void assertRefused(OctScan bad, FindingKind kind) throws InterruptedException {
    SegmentationResult refused = segment(bad);
    assertEquals(List.of(kind), refused.findings().stream().map(f -> f.kind()).toList());
    assertTrue(refused.boundaries().isEmpty());
    assertEquals(FindingKind.Gravity.NOT_MEASURED, kind.gravity());
    assertEquals(bad.size().frames(), refused.quality().count(FrameState.REFUSED));
  }
}
