package org.isopach.job;

import java.util.List;
import java.util.Objects;
import org.isopach.report.table.NerveTable;

/**
 * What measuring the nerve brought.
 *
 * @param job the run: folder, findings, files, status
 * @param tables what was measured, in the order of {@code nerve.csv}
 */
public record NerveResult(JobResult job, List<NerveTable> tables) {
  public NerveResult {
    Objects.requireNonNull(job, "job");
    tables = List.copyOf(tables);
  }
}
