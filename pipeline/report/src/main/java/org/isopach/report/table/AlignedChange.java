package org.isopach.report.table;

import java.util.Objects;
import org.isopach.analysis.change.ChangeRegions;
import org.isopach.analysis.change.ChangeTable;

/**
 * A change, and by what the two visits were put on one another.
 *
 * @param table the change by sectors
 * @param alignment name of the method
 * @param placeSdMm standard deviation in mm, along each axis, of the error of place
 * @param regions where the map is beyond noise
 */
public record AlignedChange(
    ChangeTable table, String alignment, double placeSdMm, ChangeRegions regions) {
  public AlignedChange {
    Objects.requireNonNull(table, "table");
    Objects.requireNonNull(alignment, "alignment");
    Objects.requireNonNull(regions, "regions");
  }
}
