package org.isopach.job;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Collectors;
import org.isopach.analysis.cross.SectorAgreement;
import org.isopach.analysis.cross.SectorAgreements;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.StatedRegistrations;
import org.isopach.dicom.DerivedObject;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.Software;

/**
 * Measures every scan and sets beside it what objects say somebody else, or an earlier run, found
 * in the same scan. Memory holds one scan and one object.
 */
public final class CrossCheckJob {
  private final ScanArchive archive;
  private final ThicknessMapWriter objects;
  private final Software software;
  private final SeriesJob.Measurers measurers;

  /**
   * Makes a job.
   *
   * @param archive finds the scans and the objects made of them
   * @param objects writes maps as standard objects, if that is asked for
   * @param software the program that signs the results
   */
  public CrossCheckJob(ScanArchive archive, ThicknessMapWriter objects, Software software) {
    this(archive, objects, software, ScanMeasurer::of);
  }

  CrossCheckJob(
      ScanArchive archive,
      ThicknessMapWriter objects,
      Software software,
      SeriesJob.Measurers measurers) {
    this.archive = Objects.requireNonNull(archive, "archive");
    this.objects = Objects.requireNonNull(objects, "objects");
    this.software = Objects.requireNonNull(software, "software");
    this.measurers = Objects.requireNonNull(measurers, "measurers");
  }

  /**
   * Does what is asked for; the job's baseline is not looked at.
   *
   * @throws IOException when the run folder's own tables cannot be written
   * @throws InterruptedException when the calling thread is interrupted
   */
  public CrossCheckResult run(CrossCheckRequest request, JobListener listener)
      throws IOException, InterruptedException {
    long start = System.nanoTime();
    JobRequest job = request.job();
    ExecutorService pool = Executors.newFixedThreadPool(job.threads());
    try {
      RunLedger ledger = new RunLedger(listener);
      FolderContents contents = new OwnOutput(job.out()).leftOut(archive.read(job.inputs()));
      addFindings(contents, ledger);
      listener.found(contents.filesSeen(), contents.scans().size());
      PatientIssuers.of(contents.scans()).findings().forEach(ledger::add);

      RunFolder folder = new RunFolder(job.out());
      RunFiles files = RunFiles.of(folder, job, software, objects, pool);
      StatedRegistrations stated = StatedRegistrations.of(contents.registrations());
      CrossCheckStage stage =
          new CrossCheckStage(request, contents, ScanComparer.of(job, stated, pool), ledger);
      ScanRun scans = new ScanRun(measurers.of(job, pool), files, ledger, listener);
      for (OctScan scan : contents.scans()) {
        scans.measure(scan, stage::compare);
        stage.missed(scan);
      }
      stage.unmatched();
      RunTables.write(job, ledger);
      List<SectorAgreement> agreements = SectorAgreements.of(stage.lines());
      new CrossCheckFiles(folder, software)
          .write(job, stage.lines(), agreements)
          .forEach(ledger::add);
      JobResult result =
          RunRecorder.finish(
              "crosscheck",
              job,
              parameters(request),
              software,
              contents.filesSeen(),
              ledger,
              System.nanoTime() - start);
      return new CrossCheckResult(result, stage.lines(), agreements);
    } finally {
      pool.shutdownNow();
    }
  }

  /** An object that a measurement passes over is what this is about; a broken one is missed. */
  private static void addFindings(FolderContents contents, RunLedger ledger) {
    Set<String> derived =
        contents.derived().stream()
            .filter(object -> object.kind().comparable())
            .map(DerivedObject::location)
            .collect(Collectors.toSet());
    for (Finding finding : contents.findings()) {
      if (finding.kind() == FindingKind.DERIVED_NOT_READ) {
        ledger.add(
            new Finding(FindingKind.NOT_COMPARED_WITH_SCAN, finding.subject(), finding.detail()));
      } else if (finding.kind() != FindingKind.DERIVED_OBJECT
          || !derived.contains(finding.subject())) {
        ledger.add(finding);
      }
    }
    if (derived.isEmpty()) {
      ledger.add(
          new Finding(
              FindingKind.NOT_COMPARED_WITH_SCAN,
              "inputs",
              "no object among them says what was found in a scan"));
    }
  }

  private static Map<String, Object> parameters(CrossCheckRequest request) {
    Map<String, Object> values = new LinkedHashMap<>();
    values.put(
        "segments",
        request.meanings().stream()
            .map(one -> one.scheme() + ":" + one.value() + "=" + one.kind().code())
            .toList());
    values.put(
        "changes",
        request.changes().stream()
            .map(one -> one.scheme() + ":" + one.value() + "=" + one.layer().name())
            .toList());
    return values;
  }
}
