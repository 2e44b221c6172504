package org.isopach.job;

import java.io.IOException;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
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
    try (OpenRun open = new OpenRun(request, archive, software, listener)) {
      RunLedger ledger = open.ledger();
      open.begin(open.scans().size());
      open.sayIssuers();
      open.contents().maps().forEach(map -> ledger.input(map, "not-measured"));
      open.contents().maps().stream().map(NerveJob::notMeasured).forEach(ledger::add);
      NerveRun run =
          new NerveRun(
              measurers.of(request, nerve, open.pool()),
              new NerveFinisher(nerve, request.axialLengths()),
              NerveFiles.of(open, objects),
              ledger,
              listener);
      for (EyeVisits eye : EyeVisits.of(open.scans())) {
        for (OctScan scan : eye.scansFrom(Optional.empty())) {
          run.look(scan);
        }
        run.finish(eye);
      }
      run.plot();
      RunFolder folder = open.folder();
      ledger.add(new WrittenFile(folder.nerve(), NerveFile.write(folder.nerve(), ledger.nerve())));
      ledger.add(
          new WrittenFile(folder.quality(), QualityFile.write(folder.quality(), ledger.grades())));
      JobResult result = open.finish("nerve", nerve.parameters());
      return new NerveResult(result, NerveFile.inOrder(ledger.nerve()));
    }
  }

  private static Finding notMeasured(ThicknessMap map) {
    return new Finding(
        FindingKind.NOT_A_NERVE_SCAN,
        map.document().location(),
        "a map made elsewhere: a profile and the disc need the scan itself");
  }
}
