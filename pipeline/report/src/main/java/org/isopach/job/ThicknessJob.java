package org.isopach.job;

import java.io.IOException;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.function.BiFunction;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.StatedRegistrations;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.SpatialRegistrationWriter;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.report.Software;
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
    try (OpenRun run = new OpenRun(request, archive, software, listener)) {
      run.begin(run.scans().size() + run.contents().maps().size());
      Optional<NerveStage> nerve =
          request.baseline().map(choice -> NerveStage.of(run, nerves, objects));
      VisitStage visits = visits(run, nerve);
      checkBaseline(request, run.contents()).ifPresent(run.ledger()::add);
      run.sayIssuers();
      visits.measureNoise(run.scans());
      for (EyeVisits eye : EyeVisits.of(run.scans())) {
        visits.measureEye(eye);
      }
      for (ThicknessMap map : run.contents().maps()) {
        visits.tabulate(map);
      }
      RunTables.write(run);
      if (nerve.isPresent()) {
        RunTables.writeChanges(run);
        nerve.get().compare(request.baseline().orElseThrow()).forEach(run.ledger()::add);
      }
      return run.finish(command, Map.of());
    }
  }

  private VisitStage visits(OpenRun run, Optional<NerveStage> nerve) {
    JobRequest request = run.request();
    SectorTabulator tabulator = new SectorTabulator();
    LayerMapper mapper = new LayerMapper(request, tabulator, run.pool());
    ScanMeasurer measurer =
        new ScanMeasurer(
            segmenters.apply(run.pool(), request.threads()),
            new NerveSegmenter(run.pool(), request.threads())::look,
            mapper,
            request);
    ShadowStore shadows = new ShadowStore();
    StatedRegistrations stated = StatedRegistrations.of(run.contents().registrations());
    ScanComparer comparer = new ScanComparer(request, tabulator, stated, shadows, run.pool());
    NoiseStage noise = new NoiseStage(request, archive, measurer, comparer, run.ledger());
    return new VisitStage(run, measurer, mapper, comparer, noise, files(run, shadows), nerve);
  }

  private RunFiles files(OpenRun run, ShadowStore shadows) {
    return new RunFiles(
        run.folder(),
        run.request(),
        software,
        new ObjectFiles(objects, run.folder(), software, shadows),
        new RegistrationFiles(registrations, run.folder(), software),
        run.pool(),
        run.listener());
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
}
