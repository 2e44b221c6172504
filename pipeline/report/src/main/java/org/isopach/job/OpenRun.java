package org.isopach.job;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.Software;

/** What every run has from its beginning to its end: what was read, its books, its workers. */
final class OpenRun implements AutoCloseable {
  private final long start = System.nanoTime();
  private final JobRequest request;
  private final Software software;
  private final JobListener listener;
  private final RunLedger ledger;
  private final FolderContents contents;
  private final ExecutorService pool;

  /** Reads the request's inputs; what earlier runs wrote into the same folder is left out. */
  OpenRun(JobRequest request, ScanArchive archive, Software software, JobListener listener) {
    this.request = request;
    this.software = software;
    this.listener = listener;
    this.ledger = new RunLedger(listener);
    this.contents = new OwnOutput(request.out()).leftOut(archive.read(request.inputs()));
    this.pool = Executors.newFixedThreadPool(request.threads());
  }

  /** Notes what reading said and tells the listener how many objects will be worked on. */
  void begin(int objects) {
    contents.findings().forEach(ledger::add);
    listener.found(contents.filesSeen(), objects);
  }

  /** Notes what there is to say about patients whose numbers come from several issuers. */
  void sayIssuers() {
    PatientIssuers.of(scans()).findings().forEach(ledger::add);
  }

  FolderContents contents() {
    return contents;
  }

  List<OctScan> scans() {
    return contents.scans();
  }

  JobRequest request() {
    return request;
  }

  RunFolder folder() {
    return new RunFolder(request.out());
  }

  Software software() {
    return software;
  }

  RunLedger ledger() {
    return ledger;
  }

  JobListener listener() {
    return listener;
  }

  ExecutorService pool() {
    return pool;
  }

  /** Returns what writes the files of single scans in the usual way. */
  RunFiles files(ThicknessMapWriter objects) {
    return RunFiles.of(folder(), request, software, objects, pool, listener);
  }

  /** Returns what measures single scans and writes what belongs to them. */
  ScanRun scanRun(ScanMeasurer measurer, ThicknessMapWriter objects) {
    return scanRun(measurer, objects, scan -> scan);
  }

  /** The same, where a measured scan is read as something else before it is told or written. */
  ScanRun scanRun(ScanMeasurer measurer, ThicknessMapWriter objects, ScanRun.Reading reading) {
    return new ScanRun(measurer, files(objects), ledger, listener, reading);
  }

  /**
   * Writes what is made of all numbers, and the run's record.
   *
   * @param command the name under which the run was asked for
   * @param further parameters beyond those of the request
   * @throws IOException when they cannot be written
   */
  JobResult finish(String command, Map<String, Object> further) throws IOException {
    return RunRecorder.finish(command, further, this, System.nanoTime() - start);
  }

  /** Stops the workers. */
  @Override
  public void close() {
    pool.shutdownNow();
  }
}
