package org.isopach.job;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;

/**
 * Measures the scans of one eye after the other and compares its visits with the baseline; makes
 * the sectors of maps that came as objects.
 */
final class VisitStage {
  private final JobRequest request;
  private final ScanMeasurer measurer;
  private final LayerMapper mapper;
  private final ScanComparer comparer;
  private final NoiseStage noiseStage;
  private final RunFiles files;
  private final RunLedger ledger;
  private final JobListener listener;
  private final Optional<NerveStage> nerve;
  private NoiseModel noise = NoiseModel.UNKNOWN;

  /**
   * Makes a stage of a run.
   *
   * @param mapper the one that the measurer has
   * @param nerve takes what scans show of the nerve, where visits are compared
   */
  VisitStage(
      OpenRun run,
      ScanMeasurer measurer,
      LayerMapper mapper,
      ScanComparer comparer,
      NoiseStage noiseStage,
      RunFiles files,
      Optional<NerveStage> nerve) {
    this.request = run.request();
    this.ledger = run.ledger();
    this.listener = run.listener();
    this.measurer = measurer;
    this.mapper = mapper;
    this.comparer = comparer;
    this.noiseStage = noiseStage;
    this.files = files;
    this.nerve = nerve;
  }

  /** Measures the noise by which changes will be judged. */
  void measureNoise(List<OctScan> scans) throws InterruptedException {
    noise = noiseStage.noise(scans);
  }

  /** Measures an eye from its baseline on. */
  void measureEye(EyeVisits eye) throws InterruptedException {
    Optional<Visit> baseline = request.baseline().flatMap(eye::baseline);
    EyeChanges changes = changes(eye, baseline);
    for (OctScan scan : eye.scansFrom(baseline)) {
      if (nerve.isPresent() && nerve.get().took(scan)) {
        continue;
      }
      String location = scan.document().location();
      long start = System.nanoTime();
      listener.started(location);
      Attempt attempt = new Attempt(location, ledger);
      attempt.run(() -> measureScan(scan, changes));
      ledger.input(scan, attempt.outcome());
      listener.finished(location, RunLedger.millis(System.nanoTime() - start));
    }
    if (nerve.isPresent()) {
      nerve.get().finish(eye);
    }
  }

  /** Without an order of visits there is no first one to compare with. */
  private EyeChanges changes(EyeVisits eye, Optional<Visit> baseline) {
    boolean first = request.baseline().filter(one -> one.studyUid().isEmpty()).isPresent();
    EyeChanges changes =
        new EyeChanges(
            eye,
            first ? baseline.filter(v -> eye.firstIsKnown()) : baseline,
            (before, after) -> comparer.compare(before, after, noise));
    if (request.baseline().isPresent()) {
      changes.outlook().forEach(ledger::add);
    }
    return changes;
  }

  private boolean measureScan(OctScan scan, EyeChanges changes) throws InterruptedException {
    Optional<MeasuredScan> repeat = noiseStage.taken(scan);
    MeasuredScan found = repeat.isPresent() ? repeat.get() : measurer.measure(scan);
    MeasuredScan measured = nerve.isPresent() ? nerve.get().take(found) : found;
    ledger.add(measured);
    long start = System.nanoTime();
    ledger.add(files.write(ledger.withAllSaid(measured)));
    ScanChange change = changes.next(measured.withoutLabels());
    ledger.add(change);
    ledger.add(files.write(change));
    ledger.time(
        scan.identity().sopUid(),
        measured.segmentNanos(),
        measured.mapNanos(),
        System.nanoTime() - start);
    return measured.measured();
  }

  /** Makes the sectors of a map, unless its scan is among the inputs. */
  void tabulate(ThicknessMap map) throws InterruptedException {
    String location = map.document().location();
    listener.started(location);
    long start = System.nanoTime();
    Attempt attempt = new Attempt(location, ledger);
    attempt.run(
        () -> {
          Optional<Finding> obstacle = ImportedMaps.obstacle(map, ledger);
          if (obstacle.isPresent()) {
            ledger.add(obstacle.get());
            return false;
          }
          if (request.baseline().isPresent()) {
            ledger.add(ImportedMaps.notCompared(map));
          }
          MappedLayer layer = mapper.tabulated(map);
          ledger.addImported(layer);
          SectorFindings.of(layer, location).ifPresent(ledger::add);
          ledger.add(files.write(layer));
          return layer.anyMeasured();
        });
    ledger.input(map, attempt.outcome());
    listener.finished(location, RunLedger.millis(System.nanoTime() - start));
  }
}
