package org.isopach.job.watch;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;

/** The watcher's clock. It decides when something is done, never what is written of it. */
public interface WatchTime {
  /** Returns the time now. */
  Instant now();

  /** Waits. */
  void sleep(Duration duration) throws InterruptedException;

  /**
   * Returns the time of this machine. It starts with the machine's clock and then runs steadily:
   * setting the clock does not hold a watcher up.
   */
  static WatchTime system() {
    Instant start = Clock.systemUTC().instant();
    long startNanos = System.nanoTime();
    return new WatchTime() {
      @Override
      public Instant now() {
        return start.plusNanos(System.nanoTime() - startNanos);
      }

      @Override
      public void sleep(Duration duration) throws InterruptedException {
        Thread.sleep(Math.max(1, duration.toMillis()));
      }
    };
  }
}
