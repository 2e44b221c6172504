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
   * Returns the runs around the places below a threshold. Each reaches, on either side of its
   * places below the threshold, as far as the values stay at half its least value or below; runs
   * that meet are one, and so are places below the threshold closer than {@code bridge} samples.
   *
   * @param values NaN counts as not below
   */
  static List<Run> below(double[] values, double threshold, int bridge) {
    boolean[] in = new boolean[values.length];
    for (int i = 0; i < values.length; i++) {
      in[i] = values[i] < threshold;
    }
    fillGaps(in, bridge);
    boolean[] wide = new boolean[values.length];
    for (Run run : runs(in)) {
      mark(run, values, wide);
    }
    return runs(wide);
  }

  private static void fillGaps(boolean[] in, int bridge) {
    List<Run> runs = runs(in);
    for (int k = 0; k < runs.size(); k++) {
      int end = runs.get(k).start() + runs.get(k).length();
      int next = runs.get((k + 1) % runs.size()).start();
      int gap = Math.floorMod(next - end, in.length);
      for (int i = 0; gap < bridge && i < gap; i++) {
        in[(end + i) % in.length] = true;
      }
    }
  }

  /** Marks a run from the first to the last of its samples at half its least value or below. */
  private static void mark(Run run, double[] values, boolean[] wide) {
    int n = values.length;
    double least = 0;
    for (int k = 0; k < run.length(); k++) {
      double value = values[(run.start() + k) % n];
      least = value < least ? value : least;
    }
    int from = run.start();
    int to = run.start() + run.length() - 1;
    while (!(values[from % n] <= least / 2)) {
      from++;
    }
    while (!(values[to % n] <= least / 2)) {
      to--;
    }
    while (to - from < n - 1 && values[Math.floorMod(from - 1, n)] <= least / 2) {
      from--;
    }
    while (to - from < n - 1 && values[(to + 1) % n] <= least / 2) {
      to++;
    }
    for (int k = from; k <= to; k++) {
      wide[Math.floorMod(k, n)] = true;
    }
  }

  private static List<Run> runs(boolean[] in) {
    int n = in.length;
    List<Run> runs = new ArrayList<>();
    boolean all = true;
    for (int i = 0; i < n; i++) {
      all &= in[i];
      if (in[i] && !in[(i + n - 1) % n]) {
        int length = 1;
        while (in[(i + length) % n]) {
          length++;
        }
        runs.add(new Run(i, length));
      }
    }
    return all ? List.of(new Run(0, n)) : List.copyOf(runs);
  }
}
