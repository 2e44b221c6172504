package org.isopach.job;

import java.util.Objects;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.map.ThicknessMap;

/**
 * One layer of one scan: its map and the map's sectors.
 *
 * @param map thickness in µm
 * @param table the sectors of that map
 */
public record MappedLayer(ThicknessMap map, SectorTable table) {
  public MappedLayer {
    Objects.requireNonNull(map, "map");
    Objects.requireNonNull(table, "table");
  }

  /** Returns whether at least one sector has a number. */
  boolean anyMeasured() {
    return table.sectors().stream().anyMatch(Measured.class::isInstance);
  }
}
