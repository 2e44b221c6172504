package org.isopach.cli.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.EnumMap;
import java.util.Map;
import org.isopach.job.FileKind;
import org.isopach.job.JobListener;

/**
 * Sums up the processor time that a run's threads spend, and on writing what kind of file. To be
 * made just before the run, by the thread that calls it.
 */
final class KindClock implements JobListener {
  private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
  private final Map<FileKind, Spent> spent = new EnumMap<>(FileKind.class);
  private final ThreadsClock run = new ThreadsClock();
  private final ThreadLocal<Long> begun = new ThreadLocal<>();

  /**
   * What a kind took.
   *
   * @param pieces how often something of it was written
   * @param nanos processor time of all of them
   */
  record Spent(int pieces, long nanos) {
    private static final double NANOS_PER_MILLI = 1e6;

    Spent and(Spent other) {
      return new Spent(pieces + other.pieces, nanos + other.nanos);
    }

    double millis() {
      return nanos / NANOS_PER_MILLI;
    }
  }

  @Override
  public void finished(String location, long millis) {
    run.look();
  }

  /** Returns the processor time of the run until now. */
  long nanos() {
    return run.nanos();
  }

  @Override
  public void writing(FileKind kind) {
    begun.set(threads.getCurrentThreadCpuTime());
  }

  @Override
  public void wrote(FileKind kind) {
    Spent piece = new Spent(1, threads.getCurrentThreadCpuTime() - begun.get());
    synchronized (spent) {
      spent.merge(kind, piece, Spent::and);
    }
  }

  /** Returns what was spent so far, in the order of the kinds. */
  Map<FileKind, Spent> spent() {
    synchronized (spent) {
      return new EnumMap<>(spent);
    }
  }
}
