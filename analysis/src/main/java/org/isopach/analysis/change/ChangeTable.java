package org.isopach.analysis.change;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * The change of one layer's thickness in the sectors of one grid.
 *
 * @param layer the two boundaries, the same at both visits
 * @param grid the grid, the same at both visits
 * @param laterality which eye
 * @param baseline the scan compared with
 * @param followUp the scan compared
 * @param days calendar days from baseline to follow-up, negative when the follow-up is the earlier
 *     one; empty when either date is unknown
 * @param minimumCoverage the share of a sector, from 0 to 1, that both visits had to cover
 * @param sectors one result for each of the grid's sectors in its order, then the total
 * @param centrePoint the change at the landmark
 */
public record ChangeTable(
    Layer layer,
    SectorGrid grid,
    Laterality laterality,
    ScanIdentity baseline,
    ScanIdentity followUp,
    OptionalLong days,
    double minimumCoverage,
    List<SectorChange> sectors,
    SectorChange centrePoint) {
  public ChangeTable {
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(grid, "grid");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(baseline, "baseline");
    Objects.requireNonNull(followUp, "followUp");
    Objects.requireNonNull(days, "days");
    sectors = List.copyOf(sectors);
    Objects.requireNonNull(centrePoint, "centrePoint");
  }

  /** Returns the change of a sector or of the {@value SectorGrid#TOTAL}, or empty. */
  public Optional<SectorChange> sector(String name) {
    return sectors.stream().filter(change -> change.sector().equals(name)).findFirst();
  }

  /** Returns this table with other results of its sectors. */
  ChangeTable with(List<SectorChange> judged) {
    return new ChangeTable(
        layer, grid, laterality, baseline, followUp, days, minimumCoverage, judged, centrePoint);
  }
}
