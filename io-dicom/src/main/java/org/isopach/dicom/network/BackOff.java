package org.isopach.dicom.network;

import java.time.Duration;
import java.util.concurrent.TimeUnit;

/**
 * How long to wait before what failed is tried again: twice as long each time, up to a bound.
 *
 * @param first the wait after the first failure
 * @param longest no wait is longer
 */
public record BackOff(Duration first, Duration longest) {
  /** For lost connections: 1, 2, 4 … seconds, at most 60. */
  public static final BackOff CONNECTIONS =
      new BackOff(Duration.ofSeconds(1), Duration.ofSeconds(60));

  private static final int MOST_DOUBLINGS = 20;

  /** Returns the wait after a number of failures in a row; nothing before the first. */
  public Duration after(int failures) {
    if (failures < 1) {
      return Duration.ZERO;
    }
    Duration wait = first.multipliedBy(1L << Math.min(failures - 1, MOST_DOUBLINGS));
    return wait.compareTo(longest) < 0 ? wait : longest;
  }

  /** Waits as long; an interruption ends the wait, and the thread stays interrupted. */
  public void pause(int failures) {
    try {
      TimeUnit.MILLISECONDS.sleep(after(failures).toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
