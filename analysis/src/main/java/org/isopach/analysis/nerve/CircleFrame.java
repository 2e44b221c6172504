package org.isopach.analysis.nerve;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.ScanPath;

/**
 * One frame along a circle: the angle of each A-scan, unrolled so that it grows, and where to look
 * for a value between two of them.
 */
final class CircleFrame {
  /** Farthest an A-scan may lie from the circle, as a share of its radius; ours. */
  static final double ROUNDNESS = 0.03;

  /** Widest angle between neighbouring A-scans that is interpolated over; ours. */
  static final double WIDEST_STEP_DEGREES = 3;

  private static final double SPARE_STEP = 0.5;
  private static final double ROUNDING = 1e-9;

  private final CircleFit fit;
  private final int[] ascans;
  private final double[] degrees;

  private CircleFrame(CircleFit fit, int[] ascans, double[] degrees) {
    this.fit = fit;
    this.ascans = ascans;
    this.degrees = degrees;
  }

  /** What came of a frame: the frame, or why it is not one turn of a circle. */
  record Found(Optional<CircleFrame> frame, Optional<NoCircle> obstacle) {
    static Found refused(NoCircle.Reason reason, String detail, Object... figures) {
      return new Found(
          Optional.empty(),
          Optional.of(new NoCircle(reason, String.format(Locale.ROOT, detail, figures))));
    }
  }

  static Found of(ScanPath path, int frame, Laterality eye) {
    CircleFit fit = CircleFit.of(path, frame);
    if (!(fit.worstMm() <= ROUNDNESS * fit.radiusMm())) {
      return Found.refused(
          NoCircle.Reason.NOT_ROUND,
          "frame %d: an A-scan lies %.3f mm from the best circle, of radius %.3f mm",
          frame,
          fit.worstMm(),
          fit.radiusMm());
    }
    int n = path.ascans();
    double[] unrolled = new double[n];
    unrolled[0] = DiscAngle.ofDegrees(path.point(frame, 0), fit.centre(), eye);
    int ahead = 0;
    for (int a = 1; a < n; a++) {
      double here = DiscAngle.ofDegrees(path.point(frame, a), fit.centre(), eye);
      double step = DiscAngle.signed(here - unrolled[a - 1]);
      unrolled[a] = unrolled[a - 1] + step;
      ahead += Double.compare(step, 0);
    }
    if (Math.abs(ahead) != n - 1) {
      return Found.refused(
          NoCircle.Reason.NOT_ROUND, "frame %d: the A-scans turn back along the circle", frame);
    }
    double turn = Math.abs(unrolled[n - 1] - unrolled[0]);
    if (turn + (1 + SPARE_STEP) * turn / (n - 1) < DiscAngle.FULL_TURN) {
      return Found.refused(
          NoCircle.Reason.TRUNCATED, "frame %d: the A-scans span %.1f degrees of 360", frame, turn);
    }
    return new Found(Optional.of(oneTurn(fit, unrolled)), Optional.empty());
  }

  /** Puts A-scans into growing order and leaves out those past a full turn. */
  private static CircleFrame oneTurn(CircleFit fit, double[] unrolled) {
    int n = unrolled.length;
    boolean forward = unrolled[n - 1] > unrolled[0];
    int kept = 1;
    while (kept < n
        && Math.abs(unrolled[kept] - unrolled[0]) < DiscAngle.FULL_TURN * (1 - ROUNDING)) {
      kept++;
    }
    int[] ascans = new int[kept];
    double[] degrees = new double[kept];
    for (int k = 0; k < kept; k++) {
      ascans[k] = forward ? k : kept - 1 - k;
      degrees[k] = unrolled[ascans[k]];
    }
    return new CircleFrame(fit, ascans, degrees);
  }

  CircleFit fit() {
    return fit;
  }

  /**
   * Returns the value at an angle: linear between the two A-scans beside it, NaN where either has
   * none or they are too far apart.
   *
   * @param values of all A-scans of the frame, NaN where none
   */
  double at(double angle, double[] values) {
    int n = degrees.length;
    double place = degrees[0] + DiscAngle.normal(angle - degrees[0]);
    int found = Arrays.binarySearch(degrees, place);
    int lower = found >= 0 ? found : -found - 2;
    double end = lower + 1 < n ? degrees[lower + 1] : degrees[0] + DiscAngle.FULL_TURN;
    double width = end - degrees[lower];
    double share = (place - degrees[lower]) / width;
    double first = values[ascans[lower]];
    double second = values[ascans[(lower + 1) % n]];
    if (share < ROUNDING) {
      return first;
    }
    if (share > 1 - ROUNDING) {
      return second;
    }
    return width > WIDEST_STEP_DEGREES ? Double.NaN : (1 - share) * first + share * second;
  }
}
