package org.isopach.analysis.nerve;

import java.util.Arrays;
import java.util.Random;

/**
 * How deep noise alone goes somewhere on the circle: the distribution of the least score of
 * profiles without any change, simulated with a fixed seed. Correlation of the simulated local part
 * falls as exp(−distance / length) round the closed circle.
 */
final class DeepestOfNoise {
  private static final int PROFILES = 4000;
  private static final long SEED = 20_261_125;

  private final double[] sortedDepths;

  private DeepestOfNoise(double[] sortedDepths) {
    this.sortedDepths = sortedDepths;
  }

  static DeepestOfNoise of(ProfileNoise noise, CircleSmoother smoother) {
    Random random = new Random(SEED);
    int n = smoother.samples();
    double[] profile = new double[n];
    double[] depths = new double[PROFILES];
    for (int k = 0; k < PROFILES; k++) {
      fill(profile, noise, random);
      double least = 0;
      for (double score : smoother.smooth(profile).scores()) {
        least = Math.min(least, score);
      }
      depths[k] = -least;
    }
    Arrays.sort(depths);
    return new DeepestOfNoise(depths);
  }

  /** Fills one profile: an autoregression of first order led once round, and a shared part. */
  private static void fill(double[] profile, ProfileNoise noise, Random random) {
    int n = profile.length;
    double a = Math.exp(-360.0 / n / noise.correlationDegrees());
    double unit = Math.sqrt(1 - a * a) * noise.localSdUm();
    double round = 0;
    for (int i = 0; i < n; i++) {
      profile[i] = unit * random.nextGaussian();
      round = a * round + profile[i];
    }
    double shared = noise.sharedSdUm() * random.nextGaussian();
    double state = round / (1 - Math.pow(a, n));
    for (int i = 0; i < n; i++) {
      state = a * state + profile[i];
      profile[i] = state + shared;
    }
  }

  /** Returns the depth that a share of profiles exceeds. */
  double quantile(double share) {
    return sortedDepths[Math.toIntExact(Math.round((1 - share) * PROFILES))];
  }

  /** Returns the share of profiles at least as deep, never 0. */
  double p(double depth) {
    int at = Arrays.binarySearch(sortedDepths, depth);
    int below = at < 0 ? -at - 1 : at;
    return (1.0 + PROFILES - below) / (1.0 + PROFILES);
  }
}
