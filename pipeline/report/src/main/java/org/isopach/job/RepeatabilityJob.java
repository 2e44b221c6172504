package org.isopach.job;

import java.io.IOException;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.repeat.RepeatabilityStudy;
import org.isopach.analysis.repeat.SectorRepeatability;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.StatedRegistrations;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.Software;

/**
 * Measures every scan of a folder and how far repeats of one eye differ. Scans are worked on one
 * after another; never more than a session's first repeat is held beside the one being measured.
 */
public final class RepeatabilityJob {
  private final ScanArchive archive;
  private final ThicknessMapWriter objects;
  private final Software software;

  /**
   * Makes a job.
   *
   * @param archive finds the scans
   * @param objects writes maps as standard objects
   * @param software the program that signs the results
   */
  public RepeatabilityJob(ScanArchive archive, ThicknessMapWriter objects, Software software) {
    this.archive = Objects.requireNonNull(archive, "archive");
    this.objects = Objects.requireNonNull(objects, "objects");
    this.software = Objects.requireNonNull(software, "software");
  }

  /**
   * Does what is asked for.
   *
   * @param command the name under which it was asked for, for the run record
   * @throws IOException when the run folder's own tables cannot be written
   * @throws InterruptedException when the calling thread is interrupted; files written so far are
   *     whole
   */
  public RepeatabilityResult run(String command, RepeatabilityRequest request, JobListener listener)
      throws IOException, InterruptedException {
    long start = System.nanoTime();
    JobRequest job = request.job();
    ExecutorService pool = Executors.newFixedThreadPool(job.threads());
    try {
      RunLedger ledger = new RunLedger(listener);
      FolderContents contents = new OwnOutput(job.out()).leftOut(archive.read(job.inputs()));
      contents.findings().forEach(ledger::add);
      listener.found(contents.filesSeen(), contents.scans().size());
      RunFolder folder = new RunFolder(job.out());
      RunFiles files = RunFiles.of(folder, job, software, objects, pool);
      Sessions sessions =
          new Sessions(
              job, StatedRegistrations.of(contents.registrations()), files, pool, ledger, listener);
      RepeatabilityStudy study = sessions.study(contents, request.withinDays());
      ThicknessJob.writeTables(job, ledger);
      new RepeatabilityFiles(folder, software).write(request, study).forEach(ledger::add);
      JobResult result =
          RunRecorder.finish(
              command,
              job,
              parameters(request),
              software,
              contents.filesSeen(),
              ledger,
              System.nanoTime() - start);
      return new RepeatabilityResult(result, study);
    } finally {
      pool.shutdownNow();
    }
  }

  private static Map<String, Object> parameters(RepeatabilityRequest request) {
    Map<String, Object> values = new LinkedHashMap<>();
    values.put("within_days", request.withinDays());
    values.put("plotted_layers", request.plottedLayers().stream().map(Layer::name).toList());
    values.put("plotted_sectors", List.copyOf(request.plottedSectors()));
    return values;
  }

  /** The sessions of one run. */
  private static final class Sessions {
    private final JobRequest request;
    private final ScanMeasurer measurer;
    private final ScanComparer comparer;
    private final RunFiles files;
    private final RunLedger ledger;
    private final JobListener listener;
    private final RepeatTally tally = new RepeatTally();

    Sessions(
        JobRequest request,
        StatedRegistrations registrations,
        RunFiles files,
        ExecutorService pool,
        RunLedger ledger,
        JobListener listener) {
      this.request = request;
      this.measurer = ScanMeasurer.of(request, pool);
      this.comparer = ScanComparer.of(request, registrations, pool);
      this.files = files;
      this.ledger = ledger;
      this.listener = listener;
    }

    RepeatabilityStudy study(FolderContents contents, int withinDays) throws InterruptedException {
      RepeatGroups groups = RepeatGroups.of(contents.scans(), withinDays);
      groups.findings().forEach(ledger::add);
      for (RepeatGroups.Group group : groups.groups()) {
        measure(group);
      }
      for (OctScan scan : groups.loose()) {
        measured(scan);
      }
      for (ThicknessMap map : contents.maps()) {
        ledger.add(ImportedMaps.notCompared(map));
        ledger.input(map, "not-measured");
      }
      patterns(groups).ifPresent(ledger::add);
      if (tally.eyes() < SectorRepeatability.LEAST_EYES) {
        ledger.add(
            new Finding(
                FindingKind.TOO_FEW_REPEATS,
                "repeats",
                "needs repeats of at least 2 eyes, found " + tally.eyes()));
      }
      return tally.study(request.layers(), request.grid(), withinDays);
    }

    private void measure(RepeatGroups.Group group) throws InterruptedException {
      boolean repeated = group.scans().size() > 1;
      Set<String> pictures = new HashSet<>();
      RepeatPlacer placer = new RepeatPlacer(group.eye(), comparer);
      for (OctScan scan : group.scans()) {
        boolean copy = repeated && isCopy(scan, pictures);
        Optional<MeasuredScan> found = measured(scan).filter(one -> one.place().isPresent());
        if (found.isPresent() && !copy) {
          placer.take(found.get());
        }
      }
      placer.findings().forEach(ledger::add);
      placer.session().ifPresent(tally::add);
    }

    private boolean isCopy(OctScan scan, Set<String> pictures) {
      boolean copy = FrameDigest.of(scan).filter(digest -> !pictures.add(digest)).isPresent();
      if (copy) {
        ledger.add(
            new Finding(
                FindingKind.REPEAT_IDENTICAL,
                scan.document().location(),
                "its frames are those of another scan of the session; it is no repeat"));
      }
      return copy;
    }

    /** Measures a scan and writes what belongs to it; empty when it failed. */
    private Optional<MeasuredScan> measured(OctScan scan) throws InterruptedException {
      String location = scan.document().location();
      long start = System.nanoTime();
      listener.started(location);
      MeasuredScan[] found = new MeasuredScan[1];
      Attempt attempt = new Attempt(location, ledger);
      attempt.run(
          () -> {
            MeasuredScan measured = measurer.measure(scan);
            ledger.add(measured);
            long written = System.nanoTime();
            ledger.add(files.write(ledger.withAllSaid(measured)));
            ledger.time(
                scan.identity().sopUid(),
                measured.segmentNanos(),
                measured.mapNanos(),
                System.nanoTime() - written);
            found[0] = measured.withoutLabels();
            return measured.measured();
          });
      ledger.input(scan, attempt.outcome());
      listener.finished(location, RunLedger.millis(System.nanoTime() - start));
      return Optional.ofNullable(found[0]);
    }

    /** Says when sessions of different patterns go into one figure. */
    private static Optional<Finding> patterns(RepeatGroups groups) {
      List<OctScan> firsts =
          groups.groups().stream()
              .filter(group -> group.scans().size() > 1)
              .map(RepeatGroups.Group::first)
              .toList();
      return firsts.stream()
          .filter(scan -> !ScanLikeness.alike(firsts.get(0), scan))
          .findFirst()
          .map(
              scan ->
                  new Finding(
                      FindingKind.REPEATS_POOLED,
                      "repeats",
                      "sessions of different patterns are reckoned together, "
                          + firsts.get(0).document().location()
                          + " and "
                          + scan.document().location()));
    }
  }
}
