package org.isopach.job;

import java.io.IOException;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.BiFunction;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.StatedRegistrations;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.SpatialRegistrationWriter;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.report.Software;
import org.isopach.report.table.ChangeFile;
import org.isopach.report.table.ChangeJson;
import org.isopach.report.table.ChangeRegionFile;
import org.isopach.report.table.FluidFile;
import org.isopach.report.table.QualityFile;
import org.isopach.report.table.RegistrationFile;
import org.isopach.report.table.SectorFile;
import org.isopach.segment.NerveSegmenter;
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
  private final SpatialRegistrationWriter registrations;
  private final Software software;
  private final BiFunction<ExecutorService, Integer, ScanSegmenter> segmenters;
  private final NerveJob.Measurers nerves;

  /**
   * Makes a job.
   *
   * @param archive finds the scans
   * @param objects writes maps as standard objects
   * @param software the program that signs the results
   */
  public ThicknessJob(ScanArchive archive, ThicknessMapWriter objects, Software software) {
    this(archive, objects, DicomWriters.registrations(), software);
  }

  /**
   * Makes a job that also writes registrations in its own way.
   *
   * @param registrations writes registrations of visits as standard objects
   */
  public ThicknessJob(
      ScanArchive archive,
      ThicknessMapWriter objects,
      SpatialRegistrationWriter registrations,
      Software software) {
    this(
        archive,
        objects,
        registrations,
        software,
        (pool, threads) -> new RetinaSegmenter(pool, threads)::segment);
  }

  /** Makes a job that finds things in its own way, but for the nerve. */
  ThicknessJob(
      ScanArchive archive,
      ThicknessMapWriter objects,
      SpatialRegistrationWriter registrations,
      Software software,
      BiFunction<ExecutorService, Integer, ScanSegmenter> segmenters) {
    this(archive, objects, registrations, software, segmenters, NerveJob::measurer);
  }

  /**
   * Makes a job that finds things in its own way.
   *
   * @param segmenters makes a segmenter of a pool and a number of threads
   * @param nerves makes what looks at the nerve
   */
  ThicknessJob(
      ScanArchive archive,
      ThicknessMapWriter objects,
      SpatialRegistrationWriter registrations,
      Software software,
      BiFunction<ExecutorService, Integer, ScanSegmenter> segmenters,
      NerveJob.Measurers nerves) {
    this.nerves = Objects.requireNonNull(nerves, "nerves");
    this.archive = Objects.requireNonNull(archive, "archive");
    this.objects = Objects.requireNonNull(objects, "objects");
    this.registrations = Objects.requireNonNull(registrations, "registrations");
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

      Optional<NerveStage> nerve =
          request
              .baseline()
              .map(
                  choice ->
                      NerveStage.of(request, nerves, objects, software, pool, ledger, listener));
      ShadowStore shadows = new ShadowStore();
      Stages stages =
          new Stages(
              request,
              contents,
              files(request, pool, shadows),
              shadows,
              segmenters,
              archive,
              pool,
              ledger,
              listener,
              nerve);
      checkBaseline(request, contents).ifPresent(ledger::add);
      PatientIssuers.of(contents.scans()).findings().forEach(ledger::add);
      stages.measureNoise(contents.scans());
      for (EyeVisits eye : EyeVisits.of(contents.scans())) {
        stages.measureEye(eye);
      }
      for (ThicknessMap map : contents.maps()) {
        stages.tabulate(map);
      }
      writeTables(request, ledger);
      if (nerve.isPresent()) {
        nerve.get().compare(request.baseline().orElseThrow()).forEach(ledger::add);
      }
      return RunRecorder.finish(
          command, request, software, contents.filesSeen(), ledger, System.nanoTime() - start);
    } finally {
      pool.shutdownNow();
    }
  }

  private RunFiles files(JobRequest request, ExecutorService pool, ShadowStore shadows) {
    RunFolder folder = new RunFolder(request.out());
    ObjectFiles objectFiles = new ObjectFiles(objects, folder, software, shadows);
    RegistrationFiles registrationFiles = new RegistrationFiles(registrations, folder, software);
    return new RunFiles(folder, request, software, objectFiles, registrationFiles, pool);
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
      ledger.add(
          new WrittenFile(
              folder.registrations(),
              RegistrationFile.write(folder.registrations(), ledger.laidScans())));
      ledger.add(
          new WrittenFile(
              folder.changeRegions(),
              ChangeRegionFile.write(folder.changeRegions(), ledger.changes())));
      ledger.add(
          new WrittenFile(
              folder.changeJson(), ChangeJson.write(folder.changeJson(), ledger.changes())));
    }
  }

  /** The stages of one run, and what carries a scan from one to the next. */
  private static final class Stages {
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

    Stages(
        JobRequest request,
        FolderContents contents,
        RunFiles files,
        ShadowStore shadows,
        BiFunction<ExecutorService, Integer, ScanSegmenter> segmenters,
        ScanArchive archive,
        ExecutorService pool,
        RunLedger ledger,
        JobListener listener,
        Optional<NerveStage> nerve) {
      this.nerve = nerve;
      SectorTabulator tabulator = new SectorTabulator();
      this.request = request;
      this.mapper = new LayerMapper(request, tabulator, pool);
      this.measurer =
          new ScanMeasurer(
              segmenters.apply(pool, request.threads()),
              new NerveSegmenter(pool, request.threads())::look,
              mapper,
              request);
      StatedRegistrations registrations = StatedRegistrations.of(contents.registrations());
      this.comparer = new ScanComparer(request, tabulator, registrations, shadows, pool);
      this.noiseStage = new NoiseStage(request, archive, measurer, comparer, ledger);
      this.files = files;
      this.ledger = ledger;
      this.listener = listener;
    }

    void measureNoise(List<OctScan> scans) throws InterruptedException {
      noise = noiseStage.noise(scans);
    }

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
}
