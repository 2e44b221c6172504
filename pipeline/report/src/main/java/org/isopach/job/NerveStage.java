package org.isopach.job;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.normal.ReferenceTableFile;
import org.isopach.report.table.NerveChange;
import org.isopach.report.table.NerveChangeFile;
import org.isopach.report.table.NerveCourse;
import org.isopach.report.table.NerveFile;
import org.isopach.report.table.NerveSeriesFile;
import org.isopach.report.table.NerveTrendFile;

/**
 * The nerve's part of jobs that compare visits. Circle scans belong to it alone; of volumes it
 * takes what the disc and the ganglion cell layers show. Nothing is written where no scan shows the
 * nerve.
 */
final class NerveStage {
  private final NerveRun run;
  private final NerveRequest nerve;
  private final RunFolder folder;
  private final RunLedger ledger;

  private NerveStage(NerveRun run, NerveRequest nerve, RunFolder folder, RunLedger ledger) {
    this.run = run;
    this.nerve = nerve;
    this.folder = folder;
    this.ledger = ledger;
  }

  /** Returns the stage of a run, with the usual circle and the published reference groups. */
  static NerveStage of(OpenRun open, NerveJob.Measurers measurers, ThicknessMapWriter objects) {
    JobRequest request = open.request();
    NerveRequest nerve = NerveRequest.usual(ReferenceTableFile.shipped());
    NerveFiles files = NerveFiles.of(open, objects).withoutMaps();
    NerveRun run =
        new NerveRun(
            measurers.of(request, nerve, open.pool()),
            new NerveFinisher(nerve, request.axialLengths()),
            files,
            open.ledger(),
            open.listener());
    return new NerveStage(run, nerve, open.folder(), open.ledger());
  }

  /** Looks at a scan that is of the nerve alone and returns true, or leaves it to others. */
  boolean took(OctScan scan) throws InterruptedException {
    if (!NerveRun.isNerveOnly(scan)) {
      return false;
    }
    run.look(scan);
    return true;
  }

  /**
   * Takes what a measured volume shows of the nerve. Returns the volume; where the disc was
   * measured in it, that it has no macula costs nothing.
   */
  MeasuredScan take(MeasuredScan scan) throws InterruptedException {
    if (!run.look(scan)) {
      return scan;
    }
    return scan.saying(
        scan.findings().stream()
            .map(
                said ->
                    said.kind() == FindingKind.NO_MACULA
                        ? new Finding(
                            FindingKind.NERVE_VOLUME,
                            said.subject(),
                            said.detail() + "; measured as a scan of the nerve")
                        : said)
            .toList());
  }

  /** Closes an eye. */
  void finish(EyeVisits eye) throws InterruptedException {
    run.finish(eye);
  }

  /** Writes the change of each eye's nerve since its baseline. */
  List<NerveChange> compare(BaselineChoice baseline) throws IOException, InterruptedException {
    if (!anyNerve()) {
      return List.of();
    }
    common();
    List<NerveGroup> groups = NerveGroup.of(run.book());
    NerveNoise noise = new NerveNoise(groups);
    NerveGroup.leftOut(run.book()).forEach(ledger::add);
    CircleDistance.notCompared(run.book()).forEach(ledger::add);
    NerveComparer comparer = new NerveComparer(noise);
    NervePoints points = new NervePoints(noise, folder, ledger);
    List<NerveChange> changes = new ArrayList<>();
    for (NerveGroup group : groups) {
      changes.addAll(comparer.compare(group, baseline));
      points.compare(group, baseline);
    }
    ledger.add(
        new WrittenFile(
            folder.nerveChange(), NerveChangeFile.write(folder.nerveChange(), changes)));
    return changes;
  }

  /** Writes the course of each eye's nerve over all visits. */
  List<NerveCourse> follow() throws IOException, InterruptedException {
    if (!anyNerve()) {
      return List.of();
    }
    common();
    List<NerveGroup> groups = NerveGroup.of(run.book());
    NerveNoise noise = new NerveNoise(groups);
    CircleDistance.notCompared(run.book()).forEach(ledger::add);
    NerveFollower follower = new NerveFollower(noise, nerve.reference());
    NervePoints points = new NervePoints(noise, folder, ledger);
    List<NerveCourse> courses = new ArrayList<>();
    for (NerveGroup group : groups) {
      courses.addAll(follower.follow(group));
      points.follow(group);
    }
    ledger.add(
        new WrittenFile(
            folder.nerveSeries(), NerveSeriesFile.write(folder.nerveSeries(), courses)));
    ledger.add(
        new WrittenFile(folder.nerveTrend(), NerveTrendFile.write(folder.nerveTrend(), courses)));
    return courses;
  }

  private boolean anyNerve() {
    return run.book().all().stream().anyMatch(entry -> entry.scan().measuresNerve());
  }

  private void common() throws IOException, InterruptedException {
    run.plot();
    ledger.add(new WrittenFile(folder.nerve(), NerveFile.write(folder.nerve(), ledger.nerve())));
  }
}
