package org.isopach.job.watch;

import java.time.Duration;

/** How long to wait before something that failed is tried again: 1, 2, 4 … minutes, at most 60. */
final class BackOff {
  private static final int MOST_MINUTES = 60;
  private static final int MOST_DOUBLINGS = 6;

  private BackOff() {}

  /** Returns the wait after a number of failures, 1 or more. */
  static Duration after(int failures) {
    int doublings = Math.min(Math.max(failures, 1) - 1, MOST_DOUBLINGS);
    return Duration.ofMinutes(Math.min(MOST_MINUTES, 1L << doublings));
  }
}
