package org.isopach.job;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesRules;

/**
 * What a run about series brought.
 *
 * @param job what was measured and written
 * @param courses one for each eye
 * @param rules by which they are reckoned
 * @param seriesMillis time spent after measuring: laying visits on one another, tables, plots
 */
public record SeriesResult(
    JobResult job, List<EyeCourse> courses, SeriesRules rules, long seriesMillis) {
  public SeriesResult {
    Objects.requireNonNull(job, "job");
    courses = List.copyOf(courses);
    Objects.requireNonNull(rules, "rules");
  }
}
