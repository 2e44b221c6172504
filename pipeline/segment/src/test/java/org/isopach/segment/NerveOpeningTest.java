package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.nerve.DiscAngle;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.RimMeter;
import org.isopach.analysis.nerve.RimProfile;
import org.isopach.analysis.scan.OctScan;
import org.isopach.fixtures.phantom.NerveHead;
import org.isopach.fixtures.phantom.NerveTruth;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * A radial scan of the nerve head against the phantom's truth. The limits are the project's own
 * bars for typical signal; {@code bin/accuracy} measures them on many eyes.
 */
class NerveOpeningTest {
  private static ExecutorService pool;
  private static PhantomScan phantom;
  private static OctScan scan;
  private static NerveLook look;

  @BeforeAll
  static void lookOnce() throws InterruptedException {
    pool = Executors.newFixedThreadPool(2);
    phantom = PhantomScan.of(PhantomParameters.drawNerve(2111), ScanPlan.nerveRadial());
    scan = Scans.rendered(phantom.scan());
    look = new NerveSegmenter(pool, 2).look(scan);
  }

  @AfterAll
  static void stop() {
    pool.shutdownNow();
  }

  @Test
  void centreIsWithinFiftyMicrometres() {
    double mm = look.opening().orElseThrow().centre().distanceMm(truth().centre());
    assertTrue(mm <= 0.050, () -> "was " + mm + " mm away");
  }

  @Test
  void contourIsWithinFortyMicrometresOnAverage() {
    DiscOpening opening = look.opening().orElseThrow();
    double sum = 0;
    for (double error : errorsMm(opening, truth())) {
      sum += Math.abs(error) / opening.samples();
    }
    double mean = sum;
    assertTrue(mean <= 0.040, () -> "was " + mean + " mm");
  }

  /** The pigment epithelium of this eye ends 80 µm short of Bruch's membrane. */
  @Test
  void edgeIsWhereTheMembraneEndsNotWhereTheEpitheliumDoes() throws InterruptedException {
    PhantomParameters drawn = PhantomParameters.drawNerve(2112);
    NerveHead head = drawn.nerve().orElseThrow();
    PhantomScan bare =
        PhantomScan.of(
            drawn.withNerveHead(head.withOpening(head.opening().withEpitheliumGap(0.08))),
            ScanPlan.nerveRadial());
    DiscOpening opening = new NerveSegmenter(pool, 2).look(bare.scan()).opening().orElseThrow();
    double outwards = 0;
    for (double error : errorsMm(opening, bare.truth().nerve().orElseThrow())) {
      outwards += error / opening.samples();
    }
    double mean = outwards;
    assertTrue(Math.abs(mean) <= 0.020, () -> "lies " + mean + " mm outwards");
  }

  /** Edge and inner surface share one zero: only then can a width be taken between them. */
  @Test
  void rimIsWithinTwentyMicrometresAlongTheWholeEdge() {
    RimProfile rim =
        RimMeter.measure(look.opening().orElseThrow(), look.innerSurface().orElseThrow());
    double found = 0;
    double real = 0;
    int n = 0;
    for (int i = 0; i < rim.samples(); i++) {
      if (!Double.isNaN(rim.widthUm(i))) {
        found += rim.widthUm(i);
        real += truth().rimWidthUm(rim.angleDegrees(i));
        n++;
      }
    }
    double error = (found - real) / n;
    assertTrue(n > 64 && Math.abs(error) <= 20, "was " + error + " µm at " + n + " places");
  }

  @Test
  void layersHaveNoDepthInsideTheOpening() {
    DiscOpening opening = look.opening().orElseThrow();
    BoundarySurface membrane = look.boundaries().orElseThrow().surface(Boundary.BM).orElseThrow();
    int inside = 0;
    int withDepth = 0;
    for (int f = 0; f < membrane.frames(); f++) {
      for (int a = 0; a < membrane.ascans(); a++) {
        FundusPoint place = scan.path().orElseThrow().point(f, a);
        if (place.distanceMm(opening.centre()) < opening.shortestMm() / 2 - 0.05) {
          inside++;
          withDepth += Float.isNaN(membrane.depthPx(f, a)) ? 0 : 1;
        }
      }
    }
    assertTrue(inside > 500);
    assertEquals(0, withDepth);
  }

  @Test
  void otherEyeGivesTheMirroredOpeningToTheLastBit() throws InterruptedException {
    DiscOpening here = look.opening().orElseThrow();
    DiscOpening there =
        new NerveSegmenter(pool, 1).look(Scans.otherEye(scan)).opening().orElseThrow();
    assertEquals(here.laterality().other(), there.laterality());
    assertEquals(-here.centre().xMm(), there.centre().xMm(), 0);
    assertEquals(here.centre().yMm(), there.centre().yMm(), 0);
    for (int i = 0; i < here.samples(); i++) {
      assertEquals(here.radiusMm(i), there.radiusMm(i), 0);
      assertEquals(here.heightUm(i), there.heightUm(i), 0);
    }
  }

  @Test
  void scanOfTheMaculaShowsNoOpening() throws InterruptedException {
    OctScan macula = PhantomScan.of(PhantomParameters.draw(2001), ScanPlan.coarse()).scan();
    NerveLook without = new NerveSegmenter(pool, 2).look(macula);
    assertEquals(Optional.empty(), without.opening());
    assertEquals(
        List.of(FindingKind.OPENING_NOT_SEEN),
        without.findings().stream()
            .map(Finding::kind)
            .filter(FindingKind.OPENING_NOT_SEEN::equals)
            .toList());
  }

  @Test
  void constantImageIsRefused() throws InterruptedException {
    NerveLook refused =
        new NerveSegmenter(pool, 2)
            .look(Scans.withFrames(scan, (frame, into) -> java.util.Arrays.fill(into, 77)));
    assertEquals(Optional.empty(), refused.boundaries());
    assertTrue(
        refused.findings().stream()
            .map(Finding::kind)
            .anyMatch(FindingKind.CONSTANT_IMAGE::equals));
  }

  /** How far outwards each end lies of where it is. */
  private static double[] errorsMm(DiscOpening opening, NerveTruth truth) {
    double[] errors = new double[opening.samples()];
    for (int i = 0; i < errors.length; i++) {
      FundusPoint point = opening.point(i);
      double degrees = DiscAngle.ofDegrees(point, truth.centre(), opening.laterality());
      errors[i] = point.distanceMm(truth.centre()) - truth.radiusMm(degrees);
    }
    return errors;
  }

  private static NerveTruth truth() {
    return phantom.truth().nerve().orElseThrow();
  }
}
