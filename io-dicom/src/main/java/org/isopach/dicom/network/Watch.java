package org.isopach.dicom.network;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/** Does things later unless they are cancelled, in one thread that keeps no program running. */
final class Watch {
  private static final ScheduledThreadPoolExecutor LATER = later();

  private Watch() {}

  private static ScheduledThreadPoolExecutor later() {
    ScheduledThreadPoolExecutor later =
        new ScheduledThreadPoolExecutor(
            1,
            task -> {
              Thread thread = new Thread(task, "network watch");
              thread.setDaemon(true);
              return thread;
            });
    later.setRemoveOnCancelPolicy(true);
    return later;
  }

  /** Does something quick after a time in milliseconds; never when that is 0. */
  static Future<?> after(int millis, Runnable what) {
    return millis == 0
        ? CompletableFuture.completedFuture(null)
        : LATER.schedule(what, millis, TimeUnit.MILLISECONDS);
  }
}
