package org.isopach.report.table;

import java.util.Objects;
import org.isopach.analysis.change.ChangeTable;

/**
 * A change, and by what the two visits were put on one another.
 *
 * @param table the change by sectors
 * @param alignment name of the method
 */
public record AlignedChange(ChangeTable table, String alignment) {
  public AlignedChange {
    Objects.requireNonNull(table, "table");
    Objects.requireNonNull(alignment, "alignment");
  }
}
