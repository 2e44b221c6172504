package org.isopach.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.RepeatNoise;
import org.isopach.analysis.change.RepeatNoiseEstimator;
import org.isopach.analysis.change.RepeatPair;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanArchive;

/**
 * Measures the noise of repeated scans before visits are compared: of repeats the user named, of
 * repeats among the scans themselves, and what is published where both tell nothing.
 *
 * <p>Repeats among the scans are measured once more when their turn comes, all but a few that are
 * kept, so that memory does not grow with the number of scans.
 */
final class NoiseStage {
  /** Below it, an interval is hardly of use: Student's quantile is 4.3 for 2, 3.2 for 3. */
  static final int LEAST_PAIRS = 3;

  /** Above it, more repeats narrow an interval by less than a tenth. */
  static final int MOST_PAIRS = 12;

  private static final int MOST_KEPT = 6;

  private final JobRequest request;
  private final ScanArchive archive;
  private final ScanMeasurer measurer;
  private final ScanComparer comparer;
  private final RunLedger ledger;
  private final Map<String, MeasuredScan> kept = new LinkedHashMap<>();

  NoiseStage(
      JobRequest request,
      ScanArchive archive,
      ScanMeasurer measurer,
      ScanComparer comparer,
      RunLedger ledger) {
    this.request = request;
    this.archive = archive;
    this.measurer = measurer;
    this.comparer = comparer;
    this.ledger = ledger;
  }

  /** Returns the noise by which changes among some scans are judged. */
  NoiseModel noise(List<OctScan> scans) throws InterruptedException {
    boolean nothingToJudge = EyeVisits.of(scans).stream().noneMatch(eye -> eye.visits().size() > 1);
    if (request.baseline().isEmpty() || nothingToJudge) {
      return NoiseModel.UNKNOWN;
    }
    NoiseChoice choice = request.baseline().get().noise();
    NoiseModel published = layer -> PublishedNoise.of(layer, request.grid(), choice.population());
    NoiseModel found = measure(scans, NoiseSource.SAME_DAY_REPEATS, true).or(published);
    return choice.repeats().isEmpty() ? found : given(choice).or(found);
  }

  private NoiseModel given(NoiseChoice choice) throws InterruptedException {
    FolderContents contents = archive.read(List.of(choice.repeats().orElseThrow()));
    contents.findings().forEach(ledger::add);
    return measure(contents.scans(), NoiseSource.GIVEN_REPEATS, false);
  }

  /** Returns the scan if it was measured as a repeat and kept; it is then forgotten here. */
  Optional<MeasuredScan> taken(OctScan scan) {
    return Optional.ofNullable(kept.remove(scan.identity().sopUid()));
  }

  private NoiseModel measure(List<OctScan> scans, NoiseSource source, boolean keep)
      throws InterruptedException {
    List<RepeatScans> pairs = RepeatScans.among(scans);
    Map<Layer, RepeatNoiseEstimator> estimators = new LinkedHashMap<>();
    int used = 0;
    if (pairs.size() >= LEAST_PAIRS) {
      for (RepeatScans pair : pairs.subList(0, Math.min(pairs.size(), MOST_PAIRS))) {
        used += add(pair, source, keep, estimators) ? 1 : 0;
      }
    }
    if (source == NoiseSource.GIVEN_REPEATS && used < LEAST_PAIRS) {
      ledger.add(tooFew(used, pairs.size()));
    }
    Map<Layer, RepeatNoise> noise = new LinkedHashMap<>();
    estimators.forEach((layer, estimator) -> noise.put(layer, estimator.finish()));
    return layer ->
        noise.getOrDefault(layer, RepeatNoise.unknown(layer, few(source, pairs.size())));
  }

  private static String few(NoiseSource source, int pairs) {
    String what =
        source == NoiseSource.GIVEN_REPEATS ? "repeats given" : "scans of one day in the folder";
    return pairs + " pairs of " + what + ", " + LEAST_PAIRS + " are needed";
  }

  private Finding tooFew(int used, int found) {
    return new Finding(
        FindingKind.REPEATS_TOO_FEW,
        request.baseline().orElseThrow().noise().repeats().orElseThrow().toString(),
        used + " of " + found + " pairs could be used, " + LEAST_PAIRS + " are needed");
  }

  private boolean add(
      RepeatScans pair,
      NoiseSource source,
      boolean keep,
      Map<Layer, RepeatNoiseEstimator> estimators)
      throws InterruptedException {
    List<RepeatPair> laid = new ArrayList<>();
    // What goes wrong with a scan of the folder is said when the scan itself is measured.
    RunLedger aside = keep ? new RunLedger(JobListener.SILENT) : ledger;
    Attempt attempt = new Attempt(pair.second().document().location(), aside);
    attempt.run(() -> laid.addAll(lay(pair, keep, aside)));
    for (RepeatPair layer : laid) {
      estimators
          .computeIfAbsent(
              layer.compared().table().layer(),
              one -> new RepeatNoiseEstimator(one, source, LEAST_PAIRS, new SectorTabulator()))
          .add(layer);
    }
    return !laid.isEmpty();
  }

  private List<RepeatPair> lay(RepeatScans pair, boolean keep, RunLedger aside)
      throws InterruptedException {
    MeasuredScan first = measure(pair.first(), keep);
    MeasuredScan second = measure(pair.second(), keep);
    if (first.place().isEmpty() || second.place().isEmpty()) {
      return List.of();
    }
    LaidVisits laid = comparer.lay(first.withoutLabels(), second.withoutLabels());
    laid.findings().forEach(aside::add);
    return laid.pairs();
  }

  private MeasuredScan measure(OctScan scan, boolean keep) throws InterruptedException {
    MeasuredScan measured = measurer.measure(scan);
    if (keep && kept.size() < MOST_KEPT) {
      kept.put(scan.identity().sopUid(), measured);
    }
    return measured;
  }
}
