package org.isopach.analysis.change;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/** The step-up procedure of Benjamini and Hochberg (J R Stat Soc B 1995;57:289; from memory). */
final class FalseDiscoveries {
  private FalseDiscoveries() {}

  /** Returns adjusted p-values in the order given. */
  static double[] adjusted(double[] p) {
    int[] order =
        IntStream.range(0, p.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> p[i]))
            .mapToInt(Integer::intValue)
            .toArray();
    double[] adjusted = new double[p.length];
    double least = 1;
    for (int rank = p.length; rank >= 1; rank--) {
      int i = order[rank - 1];
      least = Math.min(least, p[i] * p.length / rank);
      adjusted[i] = least;
    }
    return adjusted;
  }

  /**
   * Returns the greatest p-value that is rejected, or -1 when none is.
   *
   * @param p those that can be rejected at all; larger ones may be left out
   * @param tests how many there are with those left out
   */
  static double threshold(double[] p, int tests, double level) {
    double[] sorted = p.clone();
    Arrays.sort(sorted);
    for (int rank = sorted.length; rank >= 1; rank--) {
      if (sorted[rank - 1] <= level * rank / tests) {
        return sorted[rank - 1];
      }
    }
    return -1;
  }
}
