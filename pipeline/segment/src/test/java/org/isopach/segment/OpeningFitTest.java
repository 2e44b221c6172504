package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.isopach.analysis.geometry.FundusPoint;
import org.junit.jupiter.api.Test;

/** The contour fitted to columns of known shares: an ellipse in closed form, nothing rendered. */
class OpeningFitTest {
  private static final FundusPoint CENTRE = new FundusPoint(0.31, -0.22);
  private static final double HALF_WIDTH = 0.78;
  private static final double HALF_HEIGHT = 0.92;
  private static final double FRAME_MM = 0.125;
  private static final double COLUMN_MM = 0.047;

  /** Where the edge runs between two frames, all that is known is that it lies between them. */
  @Test
  void ellipseIsFoundToAQuarterOfTheFramesDistance() {
    Miss found = worst(found(raster(0, 0)));
    assertEquals(0, found.centreMm(), 0.005);
    assertTrue(found.edgeMm() < FRAME_MM / 4, "edge off by " + found.edgeMm() + " mm");
  }

  @Test
  void shadowsAndNoiseMoveItLittle() {
    Miss found = worst(found(raster(0.15, 7)));
    assertEquals(0, found.centreMm(), 0.02);
    assertTrue(found.edgeMm() < 0.04, "edge off by " + found.edgeMm() + " mm");
  }

  @Test
  void nothingIsFoundWhereNothingLooksLikeADisc() {
    DiscSamples none = new DiscSamples();
    for (int i = 0; i < 5000; i++) {
      none.add(new FundusPoint(i % 100 * 0.05 - 2.5, Math.floorDiv(i, 100) * 0.1 - 2.5), 0.1, 1);
    }
    assertTrue(new OpeningFit(none).coarse().isEmpty());
  }

  @Test
  void aSpotTooSmallForADiscIsNone() {
    DiscSamples spot = new DiscSamples();
    for (int i = 0; i < 5000; i++) {
      FundusPoint place = new FundusPoint(i % 100 * 0.02 - 1, Math.floorDiv(i, 100) * 0.04 - 1);
      spot.add(place, place.distanceMm(new FundusPoint(0, 0)) < 0.2 ? 1 : 0, 1);
    }
    assertTrue(new OpeningFit(spot).coarse().isEmpty());
  }

  @Test
  void edgeIsSeenOnlyWhereBothSidesWereScanned() {
    DiscSamples half = new DiscSamples();
    DiscSamples all = raster(0, 0);
    for (int i = 0; i < all.count(); i++) {
      if (all.yMm(i) < CENTRE.yMm()) {
        half.add(new FundusPoint(all.xMm(i), all.yMm(i)), all.share(i), 1);
      }
    }
    Miss whole = worst(found(all));
    assertEquals(1, OpeningSight.of(whole.contour(), all).seenFraction());
    double part = OpeningSight.of(whole.contour(), half).seenFraction();
    assertTrue(part > 0.4 && part < 0.6, "seen " + part);
  }

  /** A contour with how far its centroid and its edge are off. */
  private record Miss(FittedContour contour, double centreMm, double edgeMm) {}

  private static FittedContour found(DiscSamples samples) {
    OpeningFit fit = new OpeningFit(samples);
    return fit.coarse().flatMap(fit::fine).orElseThrow();
  }

  private static Miss worst(FittedContour contour) {
    double edge = 0;
    for (int i = 0; i < 72; i++) {
      double t = 2 * Math.PI * i / 72;
      FundusPoint on =
          CENTRE.plus(new FundusPoint(HALF_WIDTH * Math.cos(t), HALF_HEIGHT * Math.sin(t)));
      edge = Math.max(edge, Math.abs(contour.outsideMm(on)));
    }
    return new Miss(contour, contour.centroid().distanceMm(CENTRE), edge);
  }

  /** Columns of a raster, each the mean over its width of what lies inside of the ellipse. */
  private static DiscSamples raster(double noise, int shadows) {
    SplittableRandom random = new SplittableRandom(5);
    DiscSamples samples = new DiscSamples();
    for (double y = -2.4; y <= 2.4; y += FRAME_MM) {
      for (double x = -2.4; x <= 2.4; x += COLUMN_MM) {
        double share = 0;
        for (int i = 0; i < 20; i++) {
          double at = x + ((i + 0.5) / 20 - 0.5) * COLUMN_MM;
          double q = Math.hypot((at - CENTRE.xMm()) / HALF_WIDTH, (y - CENTRE.yMm()) / HALF_HEIGHT);
          share += q < 1 ? 0.05 : 0;
        }
        boolean shadow = shadows > 0 && Math.floorMod(Math.round((x + y) / 0.1), shadows) == 0;
        double seen = shadow ? 0.5 : share + noise * (2 * random.nextDouble() - 1);
        samples.add(new FundusPoint(x, y), Math.max(0, Math.min(1, seen)), 1);
      }
    }
    return samples;
  }
}
