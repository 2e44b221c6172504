package org.isopach.job;

import org.isopach.analysis.scan.OctScan;

/**
 * Measures single scans within a run: measures, writes what belongs to the scan, keeps the books.
 */
final class ScanRun {
  private final ScanMeasurer measurer;
  private final RunFiles files;
  private final RunLedger ledger;
  private final JobListener listener;
  private final Reading reading;

  /** What a measured scan is read as, before any of it is told or written. */
  @FunctionalInterface
  interface Reading {
    MeasuredScan of(MeasuredScan scan) throws InterruptedException;
  }

  /** What is done with a measured scan. */
  @FunctionalInterface
  interface Use {
    void of(MeasuredScan scan) throws InterruptedException;
  }

  ScanRun(
      ScanMeasurer measurer,
      RunFiles files,
      RunLedger ledger,
      JobListener listener,
      Reading reading) {
    this.reading = reading;
    this.measurer = measurer;
    this.files = files;
    this.ledger = ledger;
    this.listener = listener;
  }

  /** Measures a scan and hands it on; whatever goes wrong becomes a finding. */
  void measure(OctScan scan, Use use) throws InterruptedException {
    String location = scan.document().location();
    long start = System.nanoTime();
    listener.started(location);
    Attempt attempt = new Attempt(location, ledger);
    attempt.run(
        () -> {
          MeasuredScan measured = reading.of(measurer.measure(scan));
          ledger.add(measured);
          long mapped = System.nanoTime();
          ledger.add(files.write(ledger.withAllSaid(measured)));
          ledger.time(
              scan.identity().sopUid(),
              measured.segmentNanos(),
              measured.mapNanos(),
              System.nanoTime() - mapped);
          use.of(measured);
          return measured.measured();
        });
    ledger.input(scan, attempt.outcome());
    listener.finished(location, RunLedger.millis(System.nanoTime() - start));
  }
}
