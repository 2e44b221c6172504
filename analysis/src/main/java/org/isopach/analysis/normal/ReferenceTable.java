package org.isopach.analysis.normal;

import java.util.List;
import java.util.Objects;

/**
 * An open table of reference groups. Where several rows fit an eye, the first one counts, so that
 * the order of rows is the order of preference.
 *
 * @param name name of the table, for provenance
 * @param rows mean and spread, in order
 * @param ageing yearly changes, in order
 */
public record ReferenceTable(String name, List<ReferenceRow> rows, List<ReferenceAgeing> ageing) {
  public ReferenceTable {
    Objects.requireNonNull(name, "name");
    rows = List.copyOf(rows);
    ageing = List.copyOf(ageing);
  }

  /** Returns this table with only the rows of one group, to judge by a group that was named. */
  public ReferenceTable only(String referenceId) {
    return new ReferenceTable(
        name,
        rows.stream().filter(row -> row.source().referenceId().equals(referenceId)).toList(),
        ageing.stream().filter(row -> row.source().referenceId().equals(referenceId)).toList());
  }
}
