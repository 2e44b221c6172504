package org.isopach.cli.accuracy;

/** How often a depth is right, by the confidence that was given with it. */
final class Reliability {
  /** Number of equal steps of confidence from 0 to 1. */
  static final int STEPS = 10;

  /** A depth this near to the truth counts as right, in px. */
  static final double RIGHT_PX = 2;

  private final long[] all = new long[STEPS];
  private final long[] right = new long[STEPS];

  void add(double confidence, double errorPx) {
    int step = Math.min(STEPS - 1, (int) (confidence * STEPS));
    all[step]++;
    if (Math.abs(errorPx) <= RIGHT_PX) {
      right[step]++;
    }
  }

  static Reliability sum(Iterable<Reliability> parts) {
    Reliability sum = new Reliability();
    for (Reliability part : parts) {
      for (int i = 0; i < STEPS; i++) {
        sum.all[i] += part.all[i];
        sum.right[i] += part.right[i];
      }
    }
    return sum;
  }

  long count(int step) {
    return all[step];
  }

  /** Returns the share of right depths from 0 to 1; NaN when the step is empty. */
  double rightShare(int step) {
    return (double) right[step] / all[step];
  }
}
