package org.isopach.job;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.asymmetry.AsymmetryTable;

/**
 * What a run about both eyes brought.
 *
 * @param job what was measured and written
 * @param tables one for each pair of eyes and layer
 */
public record AsymmetryResult(JobResult job, List<AsymmetryTable> tables) {
  public AsymmetryResult {
    Objects.requireNonNull(job, "job");
    tables = List.copyOf(tables);
  }
}
