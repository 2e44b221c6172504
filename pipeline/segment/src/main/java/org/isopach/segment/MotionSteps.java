package org.isopach.segment;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.BoundarySurface;

/**
 * Axial steps between neighbouring frames, beyond the smooth shape of the fundus.
 *
 * <p>The step into a frame is the median over A-scans of its depth less that of the frame before
 * it. A fundus that is tilted and evenly curved across the frames has steps that change evenly from
 * frame to frame: that line, through the medians of all slopes and offsets (Theil and Sen), is
 * taken off.
 */
final class MotionSteps {
  private static final double LEAST_COMMON = 0.25;

  private MotionSteps() {}

  /**
   * Returns for each frame the step into it in µm, positive towards the choroid; NaN where there is
   * none. Parallel frames are taken in the order of their places, others as stored.
   */
  static double[] of(BoundarySurface surface, Optional<ScanPath> path, double micrometresPerPixel) {
    int[] order = order(surface.frames(), path);
    double[] steps = new double[surface.frames()];
    Arrays.fill(steps, Double.NaN);
    for (int i = 1; i < order.length; i++) {
      steps[order[i]] = median(surface, order[i - 1], order[i]) * micrometresPerPixel;
    }
    takeOffLine(steps, order);
    return steps;
  }

  private static int[] order(int frames, Optional<ScanPath> path) {
    Optional<ScanPath> raster = path.filter(p -> p.pattern() == ScanPattern.RASTER);
    if (raster.isEmpty()) {
      return IntStream.range(0, frames).toArray();
    }
    ScanPath p = raster.get();
    FundusPoint along = p.point(0, p.ascans() - 1).minus(p.point(0, 0));
    return IntStream.range(0, frames)
        .boxed()
        .sorted(
            Comparator.comparingDouble(
                    (Integer f) -> {
                      FundusPoint middle = p.point(f, p.ascans() / 2);
                      return along.xMm() * middle.yMm() - along.yMm() * middle.xMm();
                    })
                .thenComparing(f -> f))
        .mapToInt(f -> f)
        .toArray();
  }

  private static double median(BoundarySurface surface, int before, int frame) {
    double[] steps = new double[surface.ascans()];
    int n = 0;
    for (int a = 0; a < surface.ascans(); a++) {
      double step = (double) surface.depthPx(frame, a) - surface.depthPx(before, a);
      if (!Double.isNaN(step)) {
        steps[n++] = step;
      }
    }
    return n < LEAST_COMMON * surface.ascans() ? Double.NaN : median(Arrays.copyOf(steps, n));
  }

  private static void takeOffLine(double[] steps, int[] order) {
    List<Integer> present =
        IntStream.range(0, order.length)
            .filter(i -> !Double.isNaN(steps[order[i]]))
            .boxed()
            .toList();
    int n = present.size();
    if (n == 0) {
      return;
    }
    double[] slopes = new double[n * (n - 1) / 2];
    int s = 0;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        int to = present.get(i);
        int from = present.get(j);
        slopes[s++] = (steps[order[to]] - steps[order[from]]) / (to - from);
      }
    }
    double slope = n > 2 ? median(slopes) : 0;
    double[] offsets = present.stream().mapToDouble(i -> steps[order[i]] - slope * i).toArray();
    double offset = median(offsets);
    for (int i : present) {
      steps[order[i]] -= offset + slope * i;
    }
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }
}
