package org.isopach.analysis.nerve;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.change.NoiseSource;

/**
 * Estimates the noise of a profile from repeats of unchanged eyes: the shared part from the
 * differences' means, the local part from what is left, pooled over all samples, and its
 * correlation length from the pooled correlation of samples at growing distances.
 */
public final class ProfileNoiseEstimator {
  /** Fewer pairs say next to nothing of the shared part. */
  public static final int LEAST_PAIRS = 3;

  private ProfileNoiseEstimator() {}

  /**
   * Returns the noise of one profile; empty with fewer than {@link #LEAST_PAIRS} pairs that have a
   * value over more than half of the circle, or when the repeats do not differ.
   *
   * @param differencesUm of each pair, second less first profile in µm, equally spaced round the
   *     closed circle, all of one length; NaN where either has no value
   * @param source where the repeats come from
   * @param reference which they are, in plain words
   */
  public static Optional<ProfileNoise> estimate(
      List<double[]> differencesUm, NoiseSource source, String reference) {
    List<double[]> covered =
        differencesUm.stream().filter(ProfileNoiseEstimator::isCovered).toList();
    if (covered.size() < LEAST_PAIRS) {
      return Optional.empty();
    }
    List<double[]> centred = covered.stream().map(ProfileNoiseEstimator::centred).toList();
    double variance = product(centred, 0);
    if (!(variance > 0)) {
      return Optional.empty();
    }
    double length = correlationSamples(centred, variance);
    int n = covered.get(0).length;
    double shared = 0;
    for (double[] difference : covered) {
      double mean = mean(difference);
      shared += mean * mean / covered.size();
    }
    // What the local part lends to the mean of a profile: the mean correlation of two samples.
    double lent = Math.min(1, 2 * length / n) * variance;
    return Optional.of(
        new ProfileNoise(
            Math.sqrt(variance / 2),
            length * 360 / n,
            Math.sqrt(Math.max(0, shared - lent) / 2),
            source,
            reference));
  }

  /** Returns the distance, in samples, at which the correlation first falls to 1/e. */
  private static double correlationSamples(List<double[]> centred, double variance) {
    int n = centred.get(0).length;
    double before = 1;
    for (int lag = 1; lag < n / 2; lag++) {
      double now = product(centred, lag) / variance;
      if (now <= Math.exp(-1)) {
        return lag - 1 + (before - Math.exp(-1)) / (before - now);
      }
      before = now;
    }
    return n / 2.0 - 1;
  }

  /** Returns the mean product of samples at a distance, over all pairs of profiles. */
  private static double product(List<double[]> centred, int lag) {
    double sum = 0;
    int count = 0;
    for (double[] one : centred) {
      for (int i = 0; i < one.length; i++) {
        double value = one[i] * one[(i + lag) % one.length];
        if (!Double.isNaN(value)) {
          sum += value;
          count++;
        }
      }
    }
    return sum / count;
  }

  /** Above half, two samples with a value are found at every distance. */
  private static boolean isCovered(double[] difference) {
    long known = Arrays.stream(difference).filter(value -> !Double.isNaN(value)).count();
    return 2 * known > difference.length;
  }

  private static double[] centred(double[] values) {
    double mean = mean(values);
    double[] rest = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      rest[i] = values[i] - mean;
    }
    return rest;
  }

  private static double mean(double[] values) {
    double sum = 0;
    int count = 0;
    for (double value : values) {
      if (!Double.isNaN(value)) {
        sum += value;
        count++;
      }
    }
    return sum / count;
  }
}
