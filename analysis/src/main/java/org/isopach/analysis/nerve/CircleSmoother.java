package org.isopach.analysis.nerve;

import java.util.Arrays;

/** A running mean round a closed circle, with the standard deviation noise gives it. */
final class CircleSmoother {
  private final ProfileNoise noise;
  private final int samples;
  private final int half;
  private final double[] correlation;

  CircleSmoother(ProfileNoise noise, int samples, double widthDegrees) {
    if (samples < 72) {
      throw new IllegalArgumentException("at least 72 samples are needed, were " + samples);
    }
    this.noise = noise;
    this.samples = samples;
    double step = 360.0 / samples;
    this.half = Math.toIntExact(Math.round((widthDegrees / step - 1) / 2));
    this.correlation = new double[2 * half + 1];
    for (int lag = 0; lag < correlation.length; lag++) {
      correlation[lag] = Math.exp(-lag * step / noise.correlationDegrees());
    }
  }

  /**
   * A smoothed difference. Arrays are not copied: for use within the package.
   *
   * @see #scores
   */
  static final class Smooth {
    private final double[] valuesUm;
    private final double[] scores;

    private Smooth(int samples) {
      valuesUm = new double[samples];
      scores = new double[samples];
      Arrays.fill(valuesUm, Double.NaN);
      Arrays.fill(scores, Double.NaN);
    }

    /** Returns means in µm, NaN where fewer than half of the window's samples have a value. */
    double[] valuesUm() {
      return valuesUm;
    }

    /** Returns the means in standard deviations. */
    double[] scores() {
      return scores;
    }
  }

  /** Returns the number of samples of the running mean. */
  int window() {
    return 2 * half + 1;
  }

  int samples() {
    return samples;
  }

  Smooth smooth(double[] values) {
    if (values.length != samples) {
      throw new IllegalArgumentException(
          "prepared for " + samples + " samples, were " + values.length);
    }
    Smooth smooth = new Smooth(samples);
    double fullSd = sd(window(), 0, new int[0]);
    int[] at = new int[window()];
    for (int i = 0; i < samples; i++) {
      double sum = 0;
      int count = 0;
      for (int k = -half; k <= half; k++) {
        double value = values[(i + k + samples) % samples];
        if (!Double.isNaN(value)) {
          sum += value;
          at[count++] = k;
        }
      }
      if (2 * count >= window()) {
        smooth.valuesUm[i] = sum / count;
        smooth.scores[i] = smooth.valuesUm[i] / (count == window() ? fullSd : sd(count, count, at));
      }
    }
    return smooth;
  }

  /** Returns the standard deviation of a mean: of the whole window, or of some places of it. */
  private double sd(int count, int listed, int[] at) {
    double sum = 0;
    for (int a = 0; a < count; a++) {
      for (int b = 0; b < count; b++) {
        int lag = listed == 0 ? Math.abs(a - b) : Math.abs(at[a] - at[b]);
        sum += correlation[lag];
      }
    }
    double local = noise.localSdUm() * noise.localSdUm() * sum / (count * (double) count);
    return Math.sqrt(local + noise.sharedSdUm() * noise.sharedSdUm());
  }
}
