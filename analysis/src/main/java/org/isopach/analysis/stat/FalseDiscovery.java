package org.isopach.analysis.stat;

import java.util.Arrays;

/**
 * P-values adjusted so that rejecting those at or below q keeps the expected share of false among
 * all rejections at or below q.
 */
public final class FalseDiscovery {
  private FalseDiscovery() {}

  /**
   * Returns adjusted p-values by the step-up procedure of Benjamini &amp; Hochberg (J R Stat Soc B
   * 1995;57:289): for independent or positively dependent tests.
   *
   * @param pValues from 0 to 1, in any order; may be empty
   * @return the adjusted values in the same order, at most 1
   * @throws IllegalArgumentException when a value is NaN or outside of 0 to 1: leave untested
   *     places out, they must not count
   */
  public static double[] benjaminiHochberg(double[] pValues) {
    return stepUp(pValues, 1);
  }

  /**
   * Returns adjusted p-values by Benjamini &amp; Yekutieli (Ann Stat 2001;29:1165), which hold
   * under any dependence: those of {@link #benjaminiHochberg} times Σ 1/i up to the number of
   * tests.
   *
   * @param pValues as there
   * @return as there
   */
  public static double[] benjaminiYekutieli(double[] pValues) {
    double sum = 0;
    for (int i = pValues.length; i >= 1; i--) {
      sum += 1.0 / i;
    }
    return stepUp(pValues, sum);
  }

  private static double[] stepUp(double[] pValues, double factor) {
    for (double p : pValues) {
      if (!(p >= 0 && p <= 1)) {
        throw new IllegalArgumentException("a p-value lies from 0 to 1, was " + p);
      }
    }
    double[] sorted = pValues.clone();
    Arrays.sort(sorted);
    double[] adjusted = new double[sorted.length];
    double least = 1;
    for (int i = sorted.length - 1; i >= 0; i--) {
      least = Math.min(least, sorted[i] * factor * sorted.length / (i + 1));
      adjusted[i] = least;
    }
    double[] inOrder = new double[sorted.length];
    for (int i = 0; i < pValues.length; i++) {
      // Equal p-values have equal adjusted ones, so any of their places will do.
      inOrder[i] = adjusted[Arrays.binarySearch(sorted, pValues[i])];
    }
    return inOrder;
  }
}
