package org.isopach.job;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.scan.StatedRegistrations;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.TreatmentEvent;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.Software;
import org.isopach.report.table.NerveCourse;

/**
 * The job about series: measures every scan, puts every visit of an eye on its first one, and
 * writes how each sector of each layer runs.
 *
 * <p>Memory holds the first visit's scan and the one at work, whatever the number of visits.
 */
public final class SeriesJob {
  private final ScanArchive archive;
  private final ThicknessMapWriter objects;
  private final Software software;
  private final Measurers measurers;
  private final NerveJob.Measurers nerves;

  /** Makes what measures scans. */
  @FunctionalInterface
  interface Measurers {
    ScanMeasurer of(JobRequest request, ExecutorService pool);
  }

  /**
   * Makes a job.
   *
   * @param archive finds the scans
   * @param objects writes maps as standard objects
   * @param software the program that signs the results
   */
  public SeriesJob(ScanArchive archive, ThicknessMapWriter objects, Software software) {
    this(archive, objects, software, ScanMeasurer::of);
  }

  SeriesJob(
      ScanArchive archive, ThicknessMapWriter objects, Software software, Measurers measurers) {
    this(archive, objects, software, measurers, NerveJob::measurer);
  }

  SeriesJob(
      ScanArchive archive,
      ThicknessMapWriter objects,
      Software software,
      Measurers measurers,
      NerveJob.Measurers nerves) {
    this.nerves = Objects.requireNonNull(nerves, "nerves");
    this.archive = Objects.requireNonNull(archive, "archive");
    this.objects = Objects.requireNonNull(objects, "objects");
    this.software = Objects.requireNonNull(software, "software");
    this.measurers = Objects.requireNonNull(measurers, "measurers");
  }

  /**
   * Does what is asked for.
   *
   * @throws IOException when the run folder's own tables cannot be written
   * @throws InterruptedException when the calling thread is interrupted
   */
  public SeriesResult run(SeriesRequest request, JobListener listener)
      throws IOException, InterruptedException {
    JobRequest job = request.job();
    try (OpenRun run = new OpenRun(job, archive, software, listener)) {
      RunLedger ledger = run.ledger();
      run.begin(run.scans().size());
      run.sayIssuers();
      run.contents().maps().forEach(map -> ledger.add(ImportedMaps.notCompared(map)));

      List<EyeVisits> eyes = EyeVisits.of(run.scans());
      Map<Eye, List<TreatmentEvent>> treatments = treatments(request, eyes, ledger);
      NerveStage nerve = NerveStage.of(run, nerves, objects);
      SeriesStage stage = stage(run, nerve);
      List<EyeCourse> courses = new ArrayList<>();
      for (EyeVisits eye : eyes) {
        stage
            .follow(eye)
            .map(gatherer -> gatherer.course(treatments.getOrDefault(eye.eye().get(), List.of())))
            .ifPresent(courses::add);
      }
      long written = System.nanoTime();
      RunTables.write(run);
      new SeriesFiles(request, software).write(courses, ledger, run.pool());
      List<NerveCourse> nerveCourses = nerve.follow();
      long seriesNanos = stage.compareNanos() + System.nanoTime() - written;
      JobResult result = run.finish("series", parameters(request));
      return new SeriesResult(
          result, courses, nerveCourses, request.rules(), RunLedger.millis(seriesNanos));
    }
  }

  private SeriesStage stage(OpenRun run, NerveStage nerve) {
    JobRequest job = run.request();
    StatedRegistrations stated = StatedRegistrations.of(run.contents().registrations());
    return new SeriesStage(
        run.scanRun(measurers.of(job, run.pool()), objects, nerve::take),
        ScanComparer.of(job, stated, run.pool()),
        nerve,
        run.ledger());
  }

  private static Map<Eye, List<TreatmentEvent>> treatments(
      SeriesRequest request, List<EyeVisits> eyes, RunLedger ledger) {
    Map<Eye, LocalDate> last = new LinkedHashMap<>();
    for (EyeVisits eye : eyes) {
      List<DatedVisit> visits = DatedVisit.of(eye);
      if (eye.eye().isPresent() && !visits.isEmpty()) {
        last.put(eye.eye().get(), visits.get(visits.size() - 1).date());
      }
    }
    return request
        .treatments()
        .map(list -> new TreatmentSorter(last, ledger).sort(list))
        .orElse(Map.of());
  }

  private static Map<String, Object> parameters(SeriesRequest request) {
    Map<String, Object> values = new LinkedHashMap<>();
    values.put("treatments", request.treatments().map(one -> one.file().toString()).orElse(""));
    values.put("loading_days", request.rules().loadingDays());
    values.put("dry_floor_nl", request.rules().dryFloorNl());
    values.put("ageing_subtracted", !request.rules().ageing().isEmpty());
    return values;
  }
}
