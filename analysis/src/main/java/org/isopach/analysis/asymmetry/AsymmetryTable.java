package org.isopach.analysis.asymmetry;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * How one layer differs between the two eyes of a patient.
 *
 * @param layer the two boundaries, the same in both eyes
 * @param grid the grid
 * @param right the right eye's scan
 * @param left the left eye's scan
 * @param sectors one result for each of the grid's sectors in its order, then the total
 */
public record AsymmetryTable(
    Layer layer,
    SectorGrid grid,
    ScanIdentity right,
    ScanIdentity left,
    List<SectorAsymmetry> sectors) {
  public AsymmetryTable {
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(grid, "grid");
    Objects.requireNonNull(right, "right");
    Objects.requireNonNull(left, "left");
    sectors = List.copyOf(sectors);
  }

  /** Returns the result of a sector or of the {@value SectorGrid#TOTAL}, or empty. */
  public Optional<SectorAsymmetry> sector(String name) {
    return sectors.stream().filter(one -> one.sector().equals(name)).findFirst();
  }
}
