package org.isopach.dicom.web;

import java.util.concurrent.TimeUnit;

/** Pauses before a further try: 1, 2, 4 … up to 60 seconds. */
final class BackOff {
  private static final int LONGEST_SECONDS = 60;

  private BackOff() {}

  /**
   * Waits.
   *
   * @param tried how many tries there were; no pause before the first
   */
  static void pause(int tried) {
    if (tried == 0) {
      return;
    }
    try {
      TimeUnit.SECONDS.sleep(Math.min(1L << Math.min(tried - 1, 10), LONGEST_SECONDS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
