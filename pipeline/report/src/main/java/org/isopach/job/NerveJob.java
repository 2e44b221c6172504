package org.isopach.job;

import java.io.IOException;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.Software;
import org.isopach.report.table.NerveFile;
import org.isopach.report.table.QualityFile;
import org.isopach.segment.NerveSegmenter;
import org.isopach.segment.RetinaSegmenter;

/**
 * The job about the optic nerve: measures every scan round or over the disc, and the ganglion cells
 * of every scan over the macula.
 *
 * <p>Memory holds the maps of one visit, and of every other visit its profile and numbers.
 */
public final class NerveJob {
  private final ScanArchive archive;
  private final ThicknessMapWriter objects;
  private final Software software;
  private final Measurers measurers;

  /** Makes what looks at scans. */
  @FunctionalInterface
  interface Measurers {
    NerveMeasurer of(JobRequest request, NerveRequest nerve, ExecutorService pool);
  }

  /**
   * Makes a job.
   *
   * @param archive finds the scans
   * @param objects writes maps as standard objects
   * @param software the program that signs the results
   */
  public NerveJob(ScanArchive archive, ThicknessMapWriter objects, Software software) {
    this(archive, objects, software, NerveJob::measurer);
  }

  NerveJob(
      ScanArchive archive, ThicknessMapWriter objects, Software software, Measurers measurers) {
    this.archive = Objects.requireNonNull(archive, "archive");
    this.objects = Objects.requireNonNull(objects, "objects");
    this.software = Objects.requireNonNull(software, "software");
    this.measurers = Objects.requireNonNull(measurers, "measurers");
  }

  static NerveMeasurer measurer(JobRequest request, NerveRequest nerve, ExecutorService pool) {
    return new NerveMeasurer(
        new RetinaSegmenter(pool, request.threads())::segment,
        new NerveSegmenter(pool, request.threads())::look,
        request.axialLengths(),
        nerve.circleMm());
  }

  /**
   * Does what is asked for; layers, grid and baseline of the request are not looked at.
   *
   * @throws IOException when the run folder's own tables cannot be written
   * @throws InterruptedException when the calling thread is interrupted
   */
  public NerveResult run(JobRequest request, NerveRequest nerve, JobListener listener)
      throws IOException, InterruptedException {
    long start = System.nanoTime();
    ExecutorService pool = Executors.newFixedThreadPool(request.threads());
    try {
      RunLedger ledger = new RunLedger(listener);
      FolderContents contents =
          new OwnOutput(request.out()).leftOut(archive.read(request.inputs()));
      contents.findings().forEach(ledger::add);
      listener.found(contents.filesSeen(), contents.scans().size());
      PatientIssuers.of(contents.scans()).findings().forEach(ledger::add);
      contents.maps().forEach(map -> ledger.input(map, "not-measured"));
      contents.maps().stream().map(NerveJob::notMeasured).forEach(ledger::add);

      RunFolder folder = new RunFolder(request.out());
      ObjectFiles objectFiles = new ObjectFiles(objects, folder, software);
      NerveFiles files = new NerveFiles(folder, request, software, objectFiles, pool);
      NerveRun run =
          new NerveRun(
              measurers.of(request, nerve, pool),
              new NerveFinisher(nerve, request.axialLengths()),
              files,
              ledger,
              listener);
      for (EyeVisits eye : EyeVisits.of(contents.scans())) {
        for (OctScan scan : eye.scansFrom(Optional.empty())) {
          run.look(scan);
        }
        run.finish(eye);
      }
      run.plot();
      ledger.add(new WrittenFile(folder.nerve(), NerveFile.write(folder.nerve(), ledger.nerve())));
      ledger.add(
          new WrittenFile(folder.quality(), QualityFile.write(folder.quality(), ledger.grades())));
      JobResult result =
          RunRecorder.finish(
              "nerve",
              request,
              nerve.parameters(),
              software,
              contents.filesSeen(),
              ledger,
              System.nanoTime() - start);
      return new NerveResult(result, NerveFile.inOrder(ledger.nerve()));
    } finally {
      pool.shutdownNow();
    }
  }

  private static Finding notMeasured(ThicknessMap map) {
    return new Finding(
        FindingKind.NOT_A_NERVE_SCAN,
        map.document().location(),
        "a map made elsewhere: a profile and the disc need the scan itself");
  }
}
