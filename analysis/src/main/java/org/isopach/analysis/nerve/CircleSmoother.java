package org.isopach.analysis.nerve;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.isopach.analysis.stat.CannotEstimateException;

/**
 * Takes the general change (the median) from a difference profile, averages what is left over a
 * window round the closed circle, and divides by the standard deviation that local noise gives that
 * mean.
 */
final class CircleSmoother {
  private final int samples;
  private final int half;
  private final double localSdUm;
  private final double[] correlation;
  private final double fullSdUm;

  /**
   * Prepares.
   *
   * @param samples number of samples round the circle, at least 72
   * @param widthDegrees width of the window
   * @param localSdUm standard deviation of one sample's local noise in µm
   * @param correlation of the noise of two samples, by their distance in degrees
   */
  CircleSmoother(
      int samples, double widthDegrees, double localSdUm, DoubleUnaryOperator correlation) {
    if (samples < 72) {
      throw new IllegalArgumentException("at least 72 samples are needed, were " + samples);
    }
    this.samples = samples;
    this.localSdUm = localSdUm;
    double step = 360.0 / samples;
    this.half = Math.toIntExact(Math.round((widthDegrees / step - 1) / 2));
    this.correlation = new double[2 * half + 1];
    for (int lag = 0; lag <= 2 * half; lag++) {
      this.correlation[lag] = correlation.applyAsDouble(lag * step);
    }
    int[] all = new int[2 * half + 1];
    Arrays.setAll(all, i -> i);
    this.fullSdUm = sd(all, all.length);
  }

  /** A smoothed difference; its arrays are for use within the package and not copied. */
  static final class Smooth {
    private final double[] centredUm;
    private final double[] meansUm;
    private final double[] scores;

    private Smooth(double[] centredUm) {
      this.centredUm = centredUm;
      this.meansUm = new double[centredUm.length];
      this.scores = new double[centredUm.length];
      Arrays.fill(meansUm, Double.NaN);
      Arrays.fill(scores, Double.NaN);
    }

    /** Returns the differences less their median in µm. */
    double[] centredUm() {
      return centredUm;
    }

    /** Returns the running means in µm, NaN where fewer than half of the samples have a value. */
    double[] meansUm() {
      return meansUm;
    }

    /** Returns the running means in standard deviations. */
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
    Smooth smooth = new Smooth(lessMedian(values));
    int[] at = new int[window()];
    for (int i = 0; i < samples; i++) {
      double sum = 0;
      int count = 0;
      for (int k = 0; k < at.length; k++) {
        double value = smooth.centredUm[(i + k - half + samples) % samples];
        if (!Double.isNaN(value)) {
          sum += value;
          at[count++] = k;
        }
      }
      if (2 * count >= window()) {
        smooth.meansUm[i] = sum / count;
        smooth.scores[i] = smooth.meansUm[i] / (count == window() ? fullSdUm : sd(at, count));
      }
    }
    return smooth;
  }

  private double[] lessMedian(double[] values) {
    double[] known = Arrays.stream(values).filter(value -> !Double.isNaN(value)).sorted().toArray();
    if (2 * known.length < samples) {
      throw new CannotEstimateException(
          CannotEstimateException.Reason.TOO_FEW,
          "less than half of the circle has a value at both visits");
    }
    int middle = known.length / 2;
    double median = known.length % 2 == 1 ? known[middle] : (known[middle - 1] + known[middle]) / 2;
    return Arrays.stream(values).map(value -> value - median).toArray();
  }

  /** Returns the standard deviation of the mean of some places of the window. */
  private double sd(int[] at, int count) {
    double sum = 0;
    for (int a = 0; a < count; a++) {
      for (int b = 0; b < count; b++) {
        sum += correlation[Math.abs(at[a] - at[b])];
      }
    }
    return localSdUm * Math.sqrt(sum) / count;
  }
}
