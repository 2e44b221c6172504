package org.isopach.job;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.report.table.NerveCourse;

/**
 * What a run about series brought.
 *
 * @param job what was measured and written
 * @param courses one for each eye
 * @param nerve the courses of the values of the nerve; empty where no scan shows it
 * @param rules by which they are reckoned
 * @param seriesMillis time spent after measuring: laying visits on one another, tables, plots
 */
public record SeriesResult(
    JobResult job,
    List<EyeCourse> courses,
    List<NerveCourse> nerve,
    SeriesRules rules,
    long seriesMillis) {
  public SeriesResult {
    Objects.requireNonNull(job, "job");
    courses = List.copyOf(courses);
    nerve = List.copyOf(nerve);
    Objects.requireNonNull(rules, "rules");
  }
}
