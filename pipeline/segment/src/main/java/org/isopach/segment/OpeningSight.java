package org.isopach.segment;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.nerve.DiscOpening;

/** Along which parts of a contour the columns on either side tell disc from retina. */
final class OpeningSight {
  private static final double HALF_ANGLE = Math.toRadians(8);
  private static final double NEAR_MM = 0.04;
  private static final double FAR_MM = 0.30;
  private static final double LEAST_INSIDE = 0.6;
  private static final double MOST_OUTSIDE = 0.4;
  private static final int LEAST_SAMPLES = 2;

  private final boolean[] seen;

  private OpeningSight(boolean[] seen) {
    this.seen = seen;
  }

  /** Looks along a contour. */
  static OpeningSight of(FittedContour contour, DiscSamples samples) {
    int n = DiscOpening.SAMPLES;
    double[][] sums = new double[2][n];
    int[][] counts = new int[2][n];
    for (int i = 0; i < samples.count(); i++) {
      FundusPoint place = new FundusPoint(samples.xMm(i), samples.yMm(i));
      double outside = contour.outsideMm(place);
      if (Math.abs(outside) < NEAR_MM || Math.abs(outside) > FAR_MM) {
        continue;
      }
      int side = outside < 0 ? 0 : 1;
      FundusPoint away = place.minus(contour.about());
      double angle = Math.atan2(away.yMm(), away.xMm());
      for (int k = 0; k < n; k++) {
        double apart = Math.IEEEremainder(angle - pictureAngle(k), 2 * Math.PI);
        if (Math.abs(apart) <= HALF_ANGLE) {
          sums[side][k] += samples.share(i);
          counts[side][k]++;
        }
      }
    }
    boolean[] seen = new boolean[n];
    for (int k = 0; k < n; k++) {
      seen[k] =
          counts[0][k] >= LEAST_SAMPLES
              && counts[1][k] >= LEAST_SAMPLES
              && sums[0][k] / counts[0][k] >= LEAST_INSIDE
              && sums[1][k] / counts[1][k] <= MOST_OUTSIDE;
    }
    return new OpeningSight(seen);
  }

  /**
   * Returns the direction in the picture of a sample of an opening, in radians from the right over
   * the bottom, for a right eye: sample 0 is temporal, to the left, and the next ones go up.
   */
  static double pictureAngle(int sample) {
    return Math.PI + 2 * Math.PI * sample / DiscOpening.SAMPLES;
  }

  boolean[] seen() {
    return seen.clone();
  }

  /** Returns the share of the contour that is seen. */
  double seenFraction() {
    int count = 0;
    for (boolean one : seen) {
      count += one ? 1 : 0;
    }
    return (double) count / seen.length;
  }
}
