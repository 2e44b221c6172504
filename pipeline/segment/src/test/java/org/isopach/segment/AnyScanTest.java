package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind.Gravity;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.GreyRange;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

/**
 * A thousand scans of random shape, spacing, grey range and content, the extremes among them: no
 * exception, no boundary that crosses another (the set's own constructor refuses that, asked again
 * here), no infinite value, and no scan that gives nothing without a reason.
 */
class AnyScanTest {
  private static final int SCANS = 1000;

  @Test
  void neverFailsAndIsNeverSilent() throws InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(2);
    int measured = 0;
    try {
      RetinaSegmenter segmenter = new RetinaSegmenter(pool, 2);
      for (int seed = 0; seed < SCANS; seed++) {
        OctScan scan = scan(new SplittableRandom(seed));
        SegmentationResult result = segmenter.segment(scan);
        String name = "seed " + seed + ": " + scan.size();
        assertEquals(scan.size().frames(), result.quality().frames().size(), name);
        if (result.boundaries().isPresent()) {
          check(result.boundaries().get(), scan.size(), name);
          measured++;
        } else {
          assertTrue(
              result.findings().stream().anyMatch(f -> f.kind().gravity() == Gravity.NOT_MEASURED),
              name);
        }
      }
    } finally {
      pool.shutdownNow();
    }
    int some = measured;
    assertTrue(some > 50 && some < SCANS - 50, () -> some + " of the scans were measured");
  }

  private static void check(BoundarySet boundaries, ScanSize size, String name) {
    for (int f = 0; f < size.frames(); f++) {
      for (int a = 0; a < size.ascans(); a++) {
        float above = 0;
        for (Boundary boundary : boundaries.boundaries()) {
          float depth = boundaries.surface(boundary).orElseThrow().depthPx(f, a);
          assertFalse(Float.isInfinite(depth), name);
          if (!Float.isNaN(depth)) {
            assertTrue(depth >= above && depth <= size.depths() - 1, name);
            above = depth;
          }
        }
      }
    }
  }

  private static OctScan scan(SplittableRandom random) {
    int frames = one(random, 1, 1, 2, 3, 5, 9);
    int ascans = one(random, 2, 3, 7, 16, 33, 64, 128);
    int depths = one(random, 1, 2, 9, 50, 128, 300, 496);
    double axial = one(random, 0.01, 0.5, 1.95, 3.87, 3.87, 7, 38, 400);
    GreyRange grey = random.nextInt(3) == 0 ? new GreyRange(0, 65535) : new GreyRange(0, 255);
    ScanSize size = new ScanSize(frames, ascans, depths);
    Laterality eye = random.nextBoolean() ? Laterality.LEFT : Laterality.RIGHT;
    return new OctScan(
        new ScanIdentity("TSEU-1", "1.2.3", "1.2.3.1", "1.2.3.1.1", Optional.empty()),
        new SourceDocument("any", "00"),
        random.nextInt(4) == 0 ? Optional.empty() : Optional.of(eye),
        size,
        AxialScale.ofMicrometresPerPixel(axial),
        path(random, size),
        Optional.empty(),
        Optional.empty(),
        grey,
        content(random, size, grey, axial));
  }

  private static Optional<ScanPath> path(SplittableRandom random, ScanSize size) {
    FundusFrame frame = new FundusFrame(FundusFrame.Kind.PATIENT, "1.2.3");
    double length = one(random, 0.001, 1, 6, 6, 12, 600);
    double span = one(random, 0.001, 1, 6, 6, 600);
    return switch (random.nextInt(5)) {
      case 0 -> Optional.empty();
      case 1 -> Optional.of(ScanPlan.radial(size, 1, length).path(new FundusPoint(3, 3), frame));
      case 2 ->
          Optional.of(
              ScanPath.ofLines(
                  points(random, size.frames()),
                  points(random, size.frames()),
                  size.ascans(),
                  frame));
      default ->
          Optional.of(
              ScanPlan.raster(size, 1, length, span, random.nextInt(360))
                  .path(new FundusPoint(0, 0), frame));
    };
  }

  private static List<FundusPoint> points(SplittableRandom random, int count) {
    return Stream.generate(() -> new FundusPoint(random.nextDouble() * 6, random.nextDouble() * 6))
        .limit(count)
        .toList();
  }

  private static FrameSource content(
      SplittableRandom random, ScanSize size, GreyRange grey, double axial) {
    int kind = random.nextInt(7);
    double noise = one(random, 0, 0.01, 0.04, 0.2);
    double top = random.nextDouble() * size.depths();
    double tilt = (random.nextDouble() - 0.5) * size.depths();
    long seed = random.nextLong();
    boolean breaks = random.nextInt(10) == 0;
    return (frame, into) -> {
      SplittableRandom own = new SplittableRandom(seed + frame);
      if (breaks && frame % 2 == 0) {
        throw new FrameReadException("broken on purpose", null);
      }
      for (int i = 0; i < into.length; i++) {
        int a = i % size.ascans();
        int depth = i / size.ascans();
        double below = (depth - top - tilt * a / size.ascans()) * axial;
        double value = value(kind, below, own) + noise * (own.nextDouble() - 0.5) * 3;
        double clipped = Math.min(1, Math.max(0, value));
        into[i] = (float) Math.rint(grey.low() + clipped * (grey.high() - grey.low()));
      }
    };
  }

  /** From 0 to 1: a retina of three bands, upside down, nothing, noise, extremes, blocks. */
  private static double value(int kind, double below, SplittableRandom own) {
    return switch (kind) {
      case 0, 1, 2 -> retina(below);
      case 3 -> retina(300 - below);
      case 4 -> 1 - retina(below);
      case 5 -> own.nextInt(2);
      default -> 0.3;
    };
  }

  private static double retina(double below) {
    if (below < 0) {
      return 0.1;
    }
    return below < 150 ? 0.45 : below < 230 ? 0.2 : below < 300 ? 0.7 : below < 500 ? 0.3 : 0.15;
  }

  private static int one(SplittableRandom random, int... choices) {
    return choices[random.nextInt(choices.length)];
  }

  private static double one(SplittableRandom random, double... choices) {
    return choices[random.nextInt(choices.length)];
  }
}
