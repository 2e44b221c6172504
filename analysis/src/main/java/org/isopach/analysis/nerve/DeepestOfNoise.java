package org.isopach.analysis.nerve;

import java.util.Arrays;
import java.util.Random;

/**
 * How deep noise alone goes somewhere on the circle: the distribution of the least score of
 * profiles without any change, simulated with a fixed seed. The simulated noise is as rough as its
 * correlation length allows (correlation exp(−distance / length) round the closed circle), so that
 * it has more chances to go deep than a smoother one.
 */
final class DeepestOfNoise {
  private static final int PROFILES = 4000;
  private static final long SEED = 20_261_125;

  private final double[] sortedDepths;

  private DeepestOfNoise(double[] sortedDepths) {
    this.sortedDepths = sortedDepths;
  }

  static DeepestOfNoise of(double correlationDegrees, int samples, double widthDegrees) {
    CircleSmoother smoother =
        new CircleSmoother(
            samples, widthDegrees, 1, degrees -> Math.exp(-degrees / correlationDegrees));
    Random random = new Random(SEED);
    double[] profile = new double[samples];
    double[] depths = new double[PROFILES];
    for (int k = 0; k < PROFILES; k++) {
      fill(profile, Math.exp(-360.0 / samples / correlationDegrees), random);
      depths[k] = -Math.min(0, Arrays.stream(smoother.smooth(profile).scores()).min().orElse(0));
    }
    Arrays.sort(depths);
    return new DeepestOfNoise(depths);
  }

  /** Fills one profile of variance 1: an autoregression of first order led once round. */
  private static void fill(double[] profile, double neighbour, Random random) {
    double unit = Math.sqrt(1 - neighbour * neighbour);
    double round = 0;
    for (int i = 0; i < profile.length; i++) {
      profile[i] = unit * random.nextGaussian();
      round = neighbour * round + profile[i];
    }
    double state = round / (1 - Math.pow(neighbour, profile.length));
    for (int i = 0; i < profile.length; i++) {
      state = neighbour * state + profile[i];
      profile[i] = state;
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
