package org.isopach.cli.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.HashSet;
import java.util.Set;

/**
 * Processor time of a run by its own threads: the one that called it and the workers it started.
 * The collector of garbage and the compiler are not among them.
 */
final class ThreadsClock {
  private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
  private final Set<Long> before = new HashSet<>();
  private final long begun = threads.getCurrentThreadCpuTime();
  private long workers;

  /** Starts; the calling thread is the one that calls the run. */
  ThreadsClock() {
    for (long id : threads.getAllThreadIds()) {
      before.add(id);
    }
  }

  /** Looks at the workers, which are gone when the run is over. */
  void look() {
    long sum = 0;
    for (long id : threads.getAllThreadIds()) {
      sum += before.contains(id) ? 0 : Math.max(0, threads.getThreadCpuTime(id));
    }
    workers = Math.max(workers, sum);
  }

  /** Returns nanoseconds of the caller until now, and of the workers until they were looked at. */
  long nanos() {
    return threads.getCurrentThreadCpuTime() - begun + workers;
  }
}
