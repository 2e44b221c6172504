package org.isopach.job;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.SectorAgreement;

/**
 * What a run that sets others' results beside ours brought.
 *
 * @param job what every run brings
 * @param lines everything that others say, beside ours, in the order of {@code crosscheck.csv}
 * @param agreements sectors over several scans
 */
public record CrossCheckResult(
    JobResult job, List<CrossLine> lines, List<SectorAgreement> agreements) {
  public CrossCheckResult {
    Objects.requireNonNull(job, "job");
    lines = List.copyOf(lines);
    agreements = List.copyOf(agreements);
  }
}
