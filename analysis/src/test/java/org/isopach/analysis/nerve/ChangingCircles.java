package org.isopach.analysis.nerve;

import java.util.Random;
import org.isopach.analysis.change.NoiseSource;

/** Profiles of made-up circles for tests. */
final class ChangingCircles {
  static final int SAMPLES = 768;

  /** Noise of one profile: 4 µm at a point, correlated over 3 degrees, and 2 µm shared by all. */
  static final ProfileNoise NOISE = new ProfileNoise(4, 3, 2, NoiseSource.GIVEN_REPEATS, "made up");

  private ChangingCircles() {}

  /** Returns a normal-looking profile: two humps at 70 and 290 degrees, µm. */
  static double[] healthy() {
    double[] profile = new double[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
      profile[i] = 60 + 70 * hump(i, 70) + 75 * hump(i, 290);
    }
    return profile;
  }

  private static double hump(int sample, double centre) {
    double away = away(sample, centre) / 35;
    return Math.exp(-away * away);
  }

  /** Returns the distance of a sample from an angle, 0 to 180 degrees. */
  static double away(int sample, double degrees) {
    double difference = Math.abs(sample * 360.0 / SAMPLES - degrees) % 360;
    return Math.min(difference, 360 - difference);
  }

  /**
   * Returns a scan of a profile. The local noise is white noise under a running Gaussian whose
   * correlation falls to 1/e at 3 degrees: another shape than the one the finder supposes.
   */
  static double[] scanned(double[] profile, Random random) {
    double[] white = new double[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
      white[i] = random.nextGaussian();
    }
    // A Gaussian of SD s gives the correlation exp(−d² / 4 s²), 1/e at d = 2 s.
    double sd = NOISE.correlationDegrees() / 2 * SAMPLES / 360;
    int reach = (int) Math.ceil(4 * sd);
    double[] weights = new double[2 * reach + 1];
    double squares = 0;
    for (int k = -reach; k <= reach; k++) {
      weights[k + reach] = Math.exp(-k * k / (2 * sd * sd));
      squares += weights[k + reach] * weights[k + reach];
    }
    double shared = NOISE.sharedSdUm() * random.nextGaussian();
    double[] found = new double[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
      double sum = 0;
      for (int k = -reach; k <= reach; k++) {
        sum += weights[k + reach] * white[(i + k + SAMPLES) % SAMPLES];
      }
      found[i] = profile[i] + shared + NOISE.localSdUm() * sum / Math.sqrt(squares);
    }
    return found;
  }

  /** Returns a profile with a wedge cut into it. */
  static double[] wedge(double[] profile, double centre, double width, double depthUm) {
    double[] cut = profile.clone();
    for (int i = 0; i < SAMPLES; i++) {
      cut[i] -= away(i, centre) <= width / 2 ? depthUm : 0;
    }
    return cut;
  }

  static double[] difference(double[] first, double[] second) {
    double[] difference = new double[first.length];
    for (int i = 0; i < first.length; i++) {
      difference[i] = second[i] - first[i];
    }
    return difference;
  }
}
