package org.isopach.job;

import java.util.Objects;
import org.isopach.analysis.repeat.RepeatabilityStudy;

/**
 * What a run about repeats brought.
 *
 * @param job what every run brings
 * @param study the repeatability
 */
public record RepeatabilityResult(JobResult job, RepeatabilityStudy study) {
  public RepeatabilityResult {
    Objects.requireNonNull(job, "job");
    Objects.requireNonNull(study, "study");
  }
}
