package org.isopach.job;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.scan.OctScan;
import org.isopach.report.normal.ReferenceTableFile;

/**
 * Measures the nerve in scans that lie in memory, one at a time, as {@link NerveJob} does in a
 * folder, with the usual circle and without axial lengths. Writes nothing; safe for use by several
 * threads.
 */
public final class SingleNerve {
  private final NerveMeasurer measurer;

  private SingleNerve(NerveMeasurer measurer) {
    this.measurer = measurer;
  }

  /**
   * Returns a measurer.
   *
   * @param pool runs frames; not shut down here. No thread of it may call {@link #measure}
   * @param threads frames worked on at a time
   */
  public static SingleNerve of(ExecutorService pool, int threads) {
    JobRequest usual = JobRequest.of(List.of(Path.of("memory")), Path.of("nowhere"));
    JobRequest request =
        NerveRequest.job(usual.inputs(), usual.out(), usual.axialLengths(), Set.of(), threads);
    return new SingleNerve(
        NerveJob.measurer(request, NerveRequest.usual(ReferenceTableFile.shipped()), pool));
  }

  /**
   * Returns what a scan shows; what cannot be measured becomes a finding.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  public NerveFigures measure(OctScan scan) throws InterruptedException {
    return NerveFigures.of(measurer.measure(scan));
  }
}
