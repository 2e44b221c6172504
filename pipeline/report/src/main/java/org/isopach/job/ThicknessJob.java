package org.isopach.job;

import java.io.IOException;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.BiFunction;
import org.isopach.analysis.change.VisitComparer;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.Software;
import org.isopach.report.table.ChangeFile;
import org.isopach.report.table.FluidFile;
import org.isopach.report.table.QualityFile;
import org.isopach.report.table.SectorFile;
import org.isopach.segment.RetinaSegmenter;

/**
 * The job from end to end: read the folder, measure every scan of every eye, compare visits, write
 * tables, pictures and objects. The command line, a service and a cluster job all call this class.
 *
 * <p>Scans are worked on one after another, the frames of a scan side by side, so that memory does
 * not grow with the number of scans and results do not depend on the number of threads. Whatever
 * goes wrong with one scan becomes a finding, and the next one is measured.
 */
public final class ThicknessJob {
  private final ScanArchive archive;
  private final ThicknessMapWriter objects;
  private final Software software;
  private final BiFunction<ExecutorService, Integer, ScanSegmenter> segmenters;

  /**
   * Makes a job.
   *
   * @param archive finds the scans
   * @param objects writes maps as standard objects
   * @param software the program that signs the results
   */
  public ThicknessJob(ScanArchive archive, ThicknessMapWriter objects, Software software) {
    this(
        archive, objects, software, (pool, threads) -> new RetinaSegmenter(pool, threads)::segment);
  }

  /**
   * Makes a job that finds things in its own way.
   *
   * @param segmenters makes a segmenter of a pool and a number of threads
   */
  ThicknessJob(
      ScanArchive archive,
      ThicknessMapWriter objects,
      Software software,
      BiFunction<ExecutorService, Integer, ScanSegmenter> segmenters) {
    this.archive = Objects.requireNonNull(archive, "archive");
    this.objects = Objects.requireNonNull(objects, "objects");
    this.software = Objects.requireNonNull(software, "software");
    this.segmenters = Objects.requireNonNull(segmenters, "segmenters");
  }

  /**
   * Does what is asked for.
   *
   * @param command the name under which it was asked for, for the run record
   * @throws IOException when the run folder's own tables cannot be written
   * @throws InterruptedException when the calling thread is interrupted; files written so far are
   *     whole
   */
  public JobResult run(String command, JobRequest request, JobListener listener)
      throws IOException, InterruptedException {
    long start = System.nanoTime();
    ExecutorService pool = Executors.newFixedThreadPool(request.threads());
    try {
      RunLedger ledger = new RunLedger(listener);
      FolderContents contents =
          new OwnOutput(request.out()).leftOut(archive.read(request.inputs()));
      contents.findings().forEach(ledger::add);
      listener.found(contents.filesSeen(), contents.scans().size() + contents.maps().size());

      Stages stages = new Stages(request, files(request, pool), segmenters, pool, ledger, listener);
      checkBaseline(request, contents).ifPresent(ledger::add);
      PatientIssuers.of(contents.scans()).findings().forEach(ledger::add);
      for (EyeVisits eye : EyeVisits.of(contents.scans())) {
        stages.measureEye(eye);
      }
      for (ThicknessMap map : contents.maps()) {
        stages.tabulate(map);
      }
      writeTables(request, ledger);
      return RunRecorder.finish(
          command, request, software, contents.filesSeen(), ledger, System.nanoTime() - start);
    } finally {
      pool.shutdownNow();
    }
  }

  private RunFiles files(JobRequest request, ExecutorService pool) {
    RunFolder folder = new RunFolder(request.out());
    ObjectFiles objectFiles = new ObjectFiles(objects, folder, software);
    return new RunFiles(folder, request, software, objectFiles, pool);
  }

  /** A study that is nowhere in the input cannot be anyone's baseline. */
  private static Optional<Finding> checkBaseline(JobRequest request, FolderContents contents) {
    return request
        .baseline()
        .flatMap(BaselineChoice::studyUid)
        .filter(
            uid ->
                contents.scans().stream().noneMatch(scan -> scan.identity().studyUid().equals(uid)))
        .map(
            uid ->
                new Finding(FindingKind.BASELINE_UNKNOWN, uid, "no scan of this study was found"));
  }

  static void writeTables(JobRequest request, RunLedger ledger) throws IOException {
    RunFolder folder = new RunFolder(request.out());
    ledger.add(
        new WrittenFile(folder.sectors(), SectorFile.write(folder.sectors(), ledger.tables())));
    ledger.add(new WrittenFile(folder.fluid(), FluidFile.write(folder.fluid(), ledger.regions())));
    ledger.add(
        new WrittenFile(folder.quality(), QualityFile.write(folder.quality(), ledger.grades())));
    if (request.baseline().isPresent()) {
      ledger.add(
          new WrittenFile(folder.change(), ChangeFile.write(folder.change(), ledger.changes())));
    }
  }

  /** The stages of one run, and what carries a scan from one to the next. */
  private static final class Stages {
    private final JobRequest request;
    private final ScanMeasurer measurer;
    private final LayerMapper mapper;
    private final ScanComparer comparer;
    private final RunFiles files;
    private final RunLedger ledger;
    private final JobListener listener;

    Stages(
        JobRequest request,
        RunFiles files,
        BiFunction<ExecutorService, Integer, ScanSegmenter> segmenters,
        ExecutorService pool,
        RunLedger ledger,
        JobListener listener) {
      SectorTabulator tabulator = new SectorTabulator();
      this.request = request;
      this.mapper = new LayerMapper(request, tabulator, pool);
      this.measurer = new ScanMeasurer(segmenters.apply(pool, request.threads()), mapper, request);
      this.comparer = new ScanComparer(mapper, new VisitComparer(tabulator), request.grid());
      this.files = files;
      this.ledger = ledger;
      this.listener = listener;
    }

    void measureEye(EyeVisits eye) throws InterruptedException {
      Optional<Visit> baseline = request.baseline().flatMap(eye::baseline);
      EyeChanges changes = changes(eye, baseline);
      for (OctScan scan : eye.scansFrom(baseline)) {
        String location = scan.document().location();
        long start = System.nanoTime();
        listener.started(location);
        Attempt attempt = new Attempt(location, ledger);
        attempt.run(() -> measureScan(scan, changes));
        ledger.input(scan, attempt.outcome());
        listener.finished(location, RunLedger.millis(System.nanoTime() - start));
      }
    }

    /** Without an order of visits there is no first one to compare with. */
    private EyeChanges changes(EyeVisits eye, Optional<Visit> baseline) {
      boolean first = request.baseline().filter(one -> one.studyUid().isEmpty()).isPresent();
      EyeChanges changes =
          new EyeChanges(
              eye, first ? baseline.filter(v -> eye.firstIsKnown()) : baseline, comparer);
      if (request.baseline().isPresent()) {
        changes.outlook().forEach(ledger::add);
      }
      return changes;
    }

    private boolean measureScan(OctScan scan, EyeChanges changes) throws InterruptedException {
      MeasuredScan measured = measurer.measure(scan);
      ledger.add(measured);
      long start = System.nanoTime();
      ledger.add(files.write(measured));
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
            ledger.add(layer);
            SectorFindings.of(layer, location).ifPresent(ledger::add);
            ledger.add(files.write(layer));
            return layer.anyMeasured();
          });
      ledger.input(map, attempt.outcome());
      listener.finished(location, RunLedger.millis(System.nanoTime() - start));
    }
  }
}
