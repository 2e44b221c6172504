package org.isopach.analysis.grid;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * The thickness of one layer in the sectors of one grid.
 *
 * @param layer the two boundaries the thickness lies between
 * @param grid the grid
 * @param laterality which eye
 * @param centre where the grid was put, in the coordinates of the scan's path
 * @param scan the scan measured
 * @param minimumCoverage the share of a sector, from 0 to 1, that had to have values
 * @param sectors one result for each of the grid's sectors in its order, then the total
 * @param centrePoint the thickness at the landmark: mean of the disc of 0.05 mm radius round it
 */
public record SectorTable(
    Layer layer,
    SectorGrid grid,
    Laterality laterality,
    Landmark centre,
    ScanIdentity scan,
    double minimumCoverage,
    List<SectorResult> sectors,
    SectorResult centrePoint) {
  public SectorTable {
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(grid, "grid");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(centre, "centre");
    Objects.requireNonNull(scan, "scan");
    sectors = List.copyOf(sectors);
    Objects.requireNonNull(centrePoint, "centrePoint");
  }

  /** Returns the result of a sector or of the {@value SectorGrid#TOTAL}, or empty. */
  public Optional<SectorResult> sector(String name) {
    return sectors.stream().filter(result -> result.sector().equals(name)).findFirst();
  }
}
