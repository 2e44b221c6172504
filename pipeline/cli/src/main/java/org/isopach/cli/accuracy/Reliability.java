package org.isopach.cli.accuracy;

/**
 * How often a depth is right, by the confidence that was given with it. Well calibrated is who is
 * right in as many of a hundred cases as his confidence says in percent.
 */
final class Reliability {
  /** Number of equal steps of confidence from 0 to 1. */
  static final int STEPS = 20;

  /** A depth this near to the truth counts as right, in px. */
  static final double RIGHT_PX = 2;

  private final long[] all = new long[STEPS];
  private final long[] right = new long[STEPS];
  private final double[] confidences = new double[STEPS];

  /** Adds a depth with its confidence, from 0 to 1, and its distance from the truth in px. */
  void add(double confidence, double errorPx) {
    int step = Math.min(STEPS - 1, (int) (confidence * STEPS));
    all[step]++;
    confidences[step] += confidence;
    if (Math.abs(errorPx) <= RIGHT_PX) {
      right[step]++;
    }
  }

  /** Returns the depths of several scans together. */
  static Reliability sum(Iterable<Reliability> parts) {
    Reliability sum = new Reliability();
    for (Reliability part : parts) {
      for (int i = 0; i < STEPS; i++) {
        sum.all[i] += part.all[i];
        sum.right[i] += part.right[i];
        sum.confidences[i] += part.confidences[i];
      }
    }
    return sum;
  }

  /** Returns the number of depths in the steps from one (inclusive) to another (exclusive). */
  long count(int from, int end) {
    long count = 0;
    for (int i = from; i < end; i++) {
      count += all[i];
    }
    return count;
  }

  /** Returns the share of right depths in some steps, from 0 to 1; NaN when they are empty. */
  double rightShare(int from, int end) {
    long count = 0;
    for (int i = from; i < end; i++) {
      count += right[i];
    }
    return (double) count / count(from, end);
  }

  /** Returns the mean confidence in some steps; NaN when they are empty. */
  double meanConfidence(int from, int end) {
    double sum = 0;
    for (int i = from; i < end; i++) {
      sum += confidences[i];
    }
    return sum / count(from, end);
  }

  /**
   * Returns the mean distance between confidence and share of right depths over all depths, step by
   * step: the expected calibration error (Naeini et al., AAAI 2015; from memory). NaN without
   * depths.
   */
  double miscalibration() {
    double sum = 0;
    for (int i = 0; i < STEPS; i++) {
      sum += Math.abs(confidences[i] - right[i]);
    }
    return sum / count(0, STEPS);
  }
}
