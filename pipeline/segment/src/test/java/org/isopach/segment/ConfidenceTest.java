package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Confidence must tell bad depths from good ones, or no gate on it is worth anything. */
class ConfidenceTest {
  private static final double NOISY_DB = 12;

  private static Points ofClear;
  private static Points ofNoisy;

  @BeforeAll
  static void segmentOnce() throws InterruptedException {
    PhantomScan clear = PhantomScan.of(PhantomParameters.draw(2003), ScanPlan.coarse());
    PhantomScan noisy =
        PhantomScan.of(PhantomParameters.draw(2003).withSnr(NOISY_DB), ScanPlan.coarse());
    ofClear = points(clear);
    ofNoisy = points(noisy);
  }

  @Test
  void fallsWithTheSignal() {
    assertTrue(
        ofNoisy.meanConfidence() < ofClear.meanConfidence(),
        () -> ofNoisy.meanConfidence() + " against " + ofClear.meanConfidence());
  }

  /** The confidence is meant as the probability to lie within 2 px of the truth. */
  @Test
  void saysHowOftenItIsRight() {
    assertEquals(ofClear.shareWithin(2), ofClear.meanConfidence(), 0.05);
    assertEquals(ofNoisy.shareWithin(2), ofNoisy.meanConfidence(), 0.05);
  }

  @Test
  void marksTheWorseDepths() {
    assertTrue(
        ofNoisy.meanError(false) > 1.5 * ofNoisy.meanError(true),
        () -> ofNoisy.meanError(false) + " against " + ofNoisy.meanError(true));
  }

  private record Point(float confidence, double error) {}

  /** Depths of the inner limiting membrane in order of confidence. */
  private record Points(List<Point> all) {
    double meanConfidence() {
      return all.stream().mapToDouble(Point::confidence).average().orElseThrow();
    }

    double shareWithin(double pixels) {
      return all.stream().filter(point -> point.error() <= pixels).count() / (double) all.size();
    }

    /** Mean absolute error in pixels of the surer or the less sure quarter. */
    double meanError(boolean surer) {
      int quarter = all.size() / 4;
      List<Point> part =
          surer ? all.subList(all.size() - quarter, all.size()) : all.subList(0, quarter);
      return part.stream().mapToDouble(Point::error).average().orElseThrow();
    }
  }

  private static Points points(PhantomScan phantom) throws InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(2);
    try {
      BoundarySurface surface =
          new RetinaSegmenter(pool, 2)
              .segment(phantom.scan())
              .boundaries()
              .orElseThrow()
              .surface(Boundary.ILM)
              .orElseThrow();
      List<Point> points = new ArrayList<>();
      for (int f = 0; f < surface.frames(); f++) {
        for (int a = 0; a < surface.ascans(); a++) {
          double error =
              Math.abs(surface.depthPx(f, a) - phantom.truth().depthPx(Boundary.ILM, f, a));
          if (!Double.isNaN(error)) {
            points.add(new Point(surface.confidence(f, a), error));
          }
        }
      }
      points.sort((p, q) -> Float.compare(p.confidence(), q.confidence()));
      return new Points(Collections.unmodifiableList(points));
    } finally {
      pool.shutdownNow();
    }
  }
}
