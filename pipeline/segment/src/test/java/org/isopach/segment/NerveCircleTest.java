package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.CircleResult;
import org.isopach.analysis.nerve.CircleSampler;
import org.isopach.analysis.nerve.NoCircle;
import org.isopach.analysis.quality.FrameQuality;
import org.isopach.analysis.scan.OctScan;
import org.isopach.fixtures.phantom.NerveTruth;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Circle scans of the nerve against the phantom's truth, and against themselves begun elsewhere.
 * The limit is the project's own bar for typical signal; {@code bin/accuracy} measures it on many
 * eyes.
 */
class NerveCircleTest {
  private static final Layer FIBRES = new Layer(Boundary.ILM, Boundary.RNFL_GCL);
  private static final double MOST_PROFILE_ERROR_UM = 3.0;
  private static final double LEAST_CONFIDENCE = 0.3;

  private static ExecutorService pool;
  private static List<PhantomScan> eyes;
  private static List<OctScan> scans;
  private static List<NerveLook> looks;

  @BeforeAll
  static void lookOnce() throws InterruptedException {
    pool = Executors.newFixedThreadPool(2);
    eyes = new ArrayList<>();
    scans = new ArrayList<>();
    looks = new ArrayList<>();
    for (long seed = 2101; seed < 2107; seed++) {
      PhantomScan eye = PhantomScan.of(PhantomParameters.drawNerve(seed), ScanPlan.nerveCircle());
      eyes.add(eye);
      scans.add(Scans.rendered(eye.scan()));
      looks.add(new NerveSegmenter(pool, 2).look(scans.get(scans.size() - 1)));
    }
  }

  @AfterAll
  static void stop() {
    pool.shutdownNow();
  }

  @Test
  void profilesFollowTheTruth() {
    double sum = 0;
    for (int i = 0; i < eyes.size(); i++) {
      sum += meanError(eyes.get(i), scans.get(i), looks.get(i)) / eyes.size();
    }
    double mean = sum;
    assertTrue(mean <= MOST_PROFILE_ERROR_UM, () -> "was " + mean + " µm");
  }

  /** A-scans that the search adds at the seam are no part of the scan: they count in no share. */
  @Test
  void qualityIsThatOfTheScanAndNotOfTheFrameThatWasSearched() {
    for (NerveLook look : looks) {
      BoundarySet found = look.boundaries().orElseThrow();
      double sum = 0;
      int n = 0;
      for (Boundary boundary : found.boundaries()) {
        for (int a = 0; a < found.ascans(); a++) {
          sum += found.surface(boundary).orElseThrow().confidence(0, a);
          n++;
        }
      }
      FrameQuality frame = look.quality().frames().get(0);
      assertEquals(sum / n, frame.meanConfidence().orElseThrow(), 1e-6);
    }
  }

  @Test
  void circleHasNoOpening() {
    for (NerveLook look : looks) {
      assertEquals(Optional.empty(), look.opening());
      assertEquals(Optional.empty(), look.innerSurface());
      assertTrue(
          look.findings().stream()
              .map(Finding::kind)
              .noneMatch(FindingKind.OPENING_NOT_SEEN::equals));
    }
  }

  @Test
  void startOfTheCircleHardlyMatters() throws InterruptedException {
    OctScan scan = scans.get(0);
    int ascans = scan.size().ascans();
    int later = ascans / 3;
    NerveLook turned = new NerveSegmenter(pool, 2).look(Scans.begunLater(scan, later));
    for (Boundary boundary : List.of(Boundary.ILM, Boundary.RNFL_GCL, Boundary.BM)) {
      BoundarySurface here = surface(looks.get(0), boundary);
      BoundarySurface there = surface(turned, boundary);
      double worstAtSeams = 0;
      double sum = 0;
      for (int a = 0; a < ascans; a++) {
        double apart =
            Math.abs(here.depthPx(0, a) - there.depthPx(0, Math.floorMod(a - later, ascans)));
        sum += apart;
        if (a < 5 || a >= ascans - 5 || Math.abs(a - later) < 5) {
          worstAtSeams = Math.max(worstAtSeams, apart);
        }
      }
      double mean = sum / ascans;
      double worst = worstAtSeams;
      assertTrue(mean < 0.4, () -> boundary + " moved by " + mean + " px");
      assertTrue(worst < 1.5, () -> boundary + " moved by " + worst + " px at a seam");
    }
  }

  @Test
  void otherEyeGivesMirroredDepthsToTheLastBit() throws InterruptedException {
    NerveLook other = new NerveSegmenter(pool, 1).look(Scans.otherEye(scans.get(1)));
    for (Boundary boundary : List.of(Boundary.ILM, Boundary.RNFL_GCL, Boundary.BM)) {
      Scans.assertMirrored(surface(looks.get(1), boundary), surface(other, boundary));
    }
  }

  @Test
  void unknownEyeIsSearchedAndStaysUnknown() throws InterruptedException {
    OctScan scan = scans.get(0);
    OctScan right = Scans.withLaterality(scan, Optional.of(Laterality.RIGHT));
    OctScan unknown = Scans.withLaterality(scan, Optional.empty());
    NerveLook expected = new NerveSegmenter(pool, 2).look(right);
    NerveLook actual = new NerveSegmenter(pool, 2).look(unknown);
    Scans.assertSame(surface(expected, Boundary.ILM), surface(actual, Boundary.ILM));
    NoCircle refused = assertInstanceOf(NoCircle.class, profile(unknown, actual));
    assertEquals(NoCircle.Reason.NO_LATERALITY, refused.reason());
  }

  /** Returns the mean absolute error of a profile in µm; A-scans without a value are few. */
  private static double meanError(PhantomScan eye, OctScan scan, NerveLook look) {
    CircleProfile profile = assertInstanceOf(CircleProfile.class, profile(scan, look));
    assertTrue(profile.coveredFraction() > 0.95, () -> "covers " + profile.coveredFraction());
    NerveTruth truth = eye.truth().nerve().orElseThrow();
    double sum = 0;
    int n = 0;
    for (int i = 0; i < profile.samples(); i++) {
      FundusPoint place =
          truth.place(profile.centre(), profile.diameterMm() / 2, profile.angleDegrees(i));
      double error = Math.abs(profile.thicknessUm(i) - truth.fibresUm(place));
      if (!Double.isNaN(error)) {
        sum += error;
        n++;
      }
    }
    return sum / n;
  }

  private static CircleResult profile(OctScan scan, NerveLook look) {
    return CircleSampler.ofCircleScan(
        scan,
        scan.path().orElseThrow(),
        look.boundaries().orElseThrow(),
        FIBRES,
        LEAST_CONFIDENCE,
        AngleZero.HORIZONTAL);
  }

  private static BoundarySurface surface(NerveLook look, Boundary boundary) {
    return look.boundaries().orElseThrow().surface(boundary).orElseThrow();
  }
}
