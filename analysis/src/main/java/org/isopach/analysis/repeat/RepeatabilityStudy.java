package org.isopach.analysis.repeat;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.grid.SectorGrid;

/**
 * The repeatability of all layers and sectors.
 *
 * @param grid the sectors
 * @param withinDays how many days repeats may lie apart
 * @param sessions what was repeated; may be empty
 * @param sectors one entry for each layer and sector, layers in the order measured
 */
public record RepeatabilityStudy(
    SectorGrid grid,
    int withinDays,
    List<RepeatSession> sessions,
    List<SectorRepeatability> sectors) {
  public RepeatabilityStudy {
    Objects.requireNonNull(grid, "grid");
    sessions = List.copyOf(sessions);
    sectors = List.copyOf(sectors);
  }
}
