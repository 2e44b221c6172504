package org.isopach.job.watch;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.job.BaselineChoice;
import org.isopach.job.JobListener;
import org.isopach.job.JobRequest;
import org.isopach.job.JobResult;
import org.isopach.job.NerveJob;
import org.isopach.job.NerveRequest;
import org.isopach.job.ThicknessJob;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Runs the jobs asked for on a unit, each into a folder of its name. */
public final class JobWork implements UnitWork {
  private static final Logger LOG = LoggerFactory.getLogger(JobWork.class);

  /** What can go better another time: reading, writing, memory. */
  private static final Set<FindingKind> FAILURES =
      Set.of(FindingKind.FAILED, FindingKind.NOT_WRITTEN, FindingKind.UNREADABLE_FILE);

  private final List<WatchJob> jobs;
  private final ThicknessJob thickness;
  private final NerveJob nerve;
  private final JobRequest request;
  private final NerveRequest nerveRequest;

  /**
   * Makes the work.
   *
   * @param jobs what is run, at least one
   * @param request how; its inputs, folder and baseline are not looked at
   * @param nerveRequest how the nerve is measured
   */
  public JobWork(
      List<WatchJob> jobs,
      ThicknessJob thickness,
      NerveJob nerve,
      JobRequest request,
      NerveRequest nerveRequest) {
    this.jobs = List.copyOf(jobs);
    this.thickness = Objects.requireNonNull(thickness, "thickness");
    this.nerve = Objects.requireNonNull(nerve, "nerve");
    this.request = Objects.requireNonNull(request, "request");
    this.nerveRequest = Objects.requireNonNull(nerveRequest, "nerveRequest");
  }

  @Override
  public WorkResult run(List<Path> inputs, Path out, JobListener listener)
      throws InterruptedException {
    List<WorkResult.JobEnd> ends = new ArrayList<>();
    List<String> failures = new ArrayList<>();
    for (WatchJob job : jobs) {
      try {
        JobResult result = run(job, inputs, out.resolve(job.toString()), listener);
        ends.add(new WorkResult.JobEnd(job, result.status()));
        failure(result).ifPresent(failures::add);
      } catch (IOException | RuntimeException | OutOfMemoryError | StackOverflowError e) {
        LOG.debug("the failure was", e);
        failures.add(job + ": " + e);
      }
    }
    return new WorkResult(ends, failures.stream().findFirst());
  }

  private JobResult run(WatchJob job, List<Path> inputs, Path out, JobListener listener)
      throws IOException, InterruptedException {
    return switch (job) {
      case MEASURE -> thickness.run("measure", request.at(inputs, out), listener);
      case COMPARE ->
          thickness.run(
              "compare", request.at(inputs, out).comparedWith(BaselineChoice.FIRST), listener);
      case NERVE ->
          nerve
              .run(
                  NerveRequest.job(
                      inputs, out, request.axialLengths(), request.outputs(), request.threads()),
                  nerveRequest,
                  listener)
              .job();
    };
  }

  private static Optional<String> failure(JobResult result) {
    return result.findings().stream()
        .filter(finding -> FAILURES.contains(finding.kind()))
        .findFirst()
        .map(Finding::sentence);
  }
}
