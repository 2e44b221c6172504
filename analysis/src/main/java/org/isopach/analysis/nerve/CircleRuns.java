package org.isopach.analysis.nerve;

import java.util.ArrayList;
import java.util.List;

/** Contiguous runs of samples round a closed circle. */
final class CircleRuns {
  private CircleRuns() {}

  /**
   * A run.
   *
   * @param start its first sample
   * @param length number of samples, at most all; it may pass the last sample to the first
   */
  record Run(int start, int length) {}

  /**
   * Returns the runs whose values lie below a threshold, those closer to one another than {@code
   * bridge} samples joined, in the order of their first samples.
   *
   * @param values NaN counts as not below
   */
  static List<Run> below(double[] values, double threshold, int bridge) {
    int n = values.length;
    boolean[] in = new boolean[n];
    int first = -1;
    for (int i = 0; i < n; i++) {
      in[i] = values[i] < threshold;
      first = in[i] && first < 0 ? i : first;
    }
    if (first < 0) {
      return List.of();
    }
    fillGaps(in, first, bridge);
    return runs(in);
  }

  private static void fillGaps(boolean[] in, int first, int bridge) {
    int n = in.length;
    int last = first;
    for (int k = first + 1; k <= first + n; k++) {
      if (in[k % n]) {
        if (k - last - 1 < bridge) {
          for (int gap = last + 1; gap < k; gap++) {
            in[gap % n] = true;
          }
        }
        last = k;
      }
    }
  }

  private static List<Run> runs(boolean[] in) {
    int n = in.length;
    List<Run> runs = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (in[i] && !in[(i + n - 1) % n]) {
        int length = 1;
        while (in[(i + length) % n]) {
          length++;
        }
        runs.add(new Run(i, length));
      }
    }
    return runs.isEmpty() ? List.of(new Run(0, n)) : List.copyOf(runs);
  }
}
