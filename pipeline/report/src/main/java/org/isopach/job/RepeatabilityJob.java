package org.isopach.job;

import java.io.IOException;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.repeat.RepeatabilityStudy;
import org.isopach.analysis.repeat.SectorRepeatability;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.StatedRegistrations;
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
    try (OpenRun run = new OpenRun(request.job(), archive, software, listener)) {
      run.begin(run.scans().size());
      RepeatabilityStudy study = new Sessions(run, objects).study(request.withinDays());
      RunTables.write(run);
      new RepeatabilityFiles(run.folder(), software)
          .write(request, study)
          .forEach(run.ledger()::add);
      return new RepeatabilityResult(run.finish(command, parameters(request)), study);
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
    private final OpenRun run;
    private final ScanRun scans;
    private final ScanComparer comparer;
    private final RunLedger ledger;
    private final RepeatTally tally = new RepeatTally();

    Sessions(OpenRun run, ThicknessMapWriter objects) {
      this.run = run;
      this.ledger = run.ledger();
      this.scans = run.scanRun(ScanMeasurer.of(run.request(), run.pool()), objects);
      StatedRegistrations stated = StatedRegistrations.of(run.contents().registrations());
      this.comparer = ScanComparer.of(run.request(), stated, run.pool());
    }

    RepeatabilityStudy study(int withinDays) throws InterruptedException {
      RepeatGroups groups = RepeatGroups.of(run.scans(), withinDays);
      groups.findings().forEach(ledger::add);
      for (RepeatGroups.Group group : groups.groups()) {
        measure(group);
      }
      for (OctScan scan : groups.loose()) {
        measured(scan);
      }
      for (ThicknessMap map : run.contents().maps()) {
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
      return tally.study(run.request().layers(), run.request().grid(), withinDays);
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
      MeasuredScan[] found = new MeasuredScan[1];
      scans.measure(scan, measured -> found[0] = measured.withoutLabels());
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
