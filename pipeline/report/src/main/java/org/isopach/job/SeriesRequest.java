package org.isopach.job;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.series.SeriesRules;

/**
 * What is to be done about series of visits.
 *
 * @param job how scans are measured and where results go; its baseline is not looked at
 * @param rules loading phase, dryness, ageing
 * @param treatments what was written down of treatments; empty for none
 */
public record SeriesRequest(JobRequest job, SeriesRules rules, Optional<TreatmentList> treatments) {
  public SeriesRequest {
    Objects.requireNonNull(job, "job");
    Objects.requireNonNull(rules, "rules");
    Objects.requireNonNull(treatments, "treatments");
  }
}
