package org.isopach.job.watch;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.isopach.job.ExitStatus;

/**
 * What work on a unit brought.
 *
 * @param ends how each job ended, in their order; without those that broke down
 * @param failure what failed and may go better another time; empty when nothing did
 */
public record WorkResult(List<JobEnd> ends, Optional<String> failure) {
  /** How a job ended. */
  public record JobEnd(WatchJob job, ExitStatus status) {
    public JobEnd {
      Objects.requireNonNull(job, "job");
      Objects.requireNonNull(status, "status");
    }

    private String words() {
      return job == WatchJob.NERVE && status == ExitStatus.NOTHING_MEASURABLE
          ? "no scan of the optic nerve could be measured"
          : status.words();
    }
  }

  public WorkResult {
    ends = List.copyOf(ends);
    Objects.requireNonNull(failure, "failure");
  }

  /** Returns the ends in words. */
  String words() {
    return ends.stream()
        .map(end -> end.job() + ": " + end.words())
        .collect(Collectors.joining("; "));
  }

  /**
   * Returns how the whole ended. Most studies have no scan of the nerve: that the nerve's job found
   * none is no gap when another job measured.
   */
  ExitStatus status() {
    boolean measured = ends.stream().anyMatch(end -> end.status() != ExitStatus.NOTHING_MEASURABLE);
    if (!measured) {
      return ExitStatus.NOTHING_MEASURABLE;
    }
    boolean gap =
        failure.isPresent()
            || ends.stream()
                .filter(end -> end.job() != WatchJob.NERVE || ends.size() == 1)
                .anyMatch(end -> end.status() != ExitStatus.ALL_MEASURED)
            || ends.stream().anyMatch(end -> end.status() == ExitStatus.SOME_NOT_MEASURED);
    return gap ? ExitStatus.SOME_NOT_MEASURED : ExitStatus.ALL_MEASURED;
  }
}
