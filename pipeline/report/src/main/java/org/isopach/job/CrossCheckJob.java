package org.isopach.job;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
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
    JobRequest job = request.job();
    try (OpenRun run = new OpenRun(job, archive, software, listener)) {
      addFindings(run.contents(), run.ledger());
      listener.found(run.contents().filesSeen(), run.scans().size());
      run.sayIssuers();
      StatedRegistrations stated = StatedRegistrations.of(run.contents().registrations());
      CrossCheckStage stage =
          new CrossCheckStage(
              request, run.contents(), ScanComparer.of(job, stated, run.pool()), run.ledger());
      ScanRun scans = run.scanRun(measurers.of(job, run.pool()), objects);
      for (OctScan scan : run.scans()) {
        scans.measure(scan, stage::compare);
        stage.missed(scan);
      }
      stage.unmatched();
      RunTables.write(run);
      List<SectorAgreement> agreements = SectorAgreements.of(stage.lines());
      new CrossCheckFiles(run.folder(), software)
          .write(job, stage.lines(), agreements)
          .forEach(run.ledger()::add);
      JobResult result = run.finish("crosscheck", parameters(request));
      return new CrossCheckResult(result, stage.lines(), agreements);
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
