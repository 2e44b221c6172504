package org.isopach.cli.bench;

import java.lang.management.ManagementFactory;
import org.isopach.job.JobListener;

/**
 * Collects the heap fully after a few scans of a run and again after the last, to see whether what
 * stays alive grows with the number of scans.
 */
final class LiveHeap implements JobListener {
  /** How many scans are done before the first look. */
  static final int FEW = 10;

  private final int all;
  private int done;
  private long afterFew;
  private long afterAll;

  LiveHeap(int all) {
    this.all = all;
  }

  @Override
  public void finished(String location, long millis) {
    done++;
    if (done == FEW) {
      afterFew = live();
    }
    if (done == all) {
      afterAll = live();
    }
  }

  /** Returns how many bytes more were alive after the last scan than after the first few. */
  long grown() {
    return afterAll - afterFew;
  }

  private static long live() {
    System.gc();
    return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
  }
}
