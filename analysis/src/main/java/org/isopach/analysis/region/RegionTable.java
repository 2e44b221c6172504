package org.isopach.analysis.region;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * One kind of region in one scan.
 *
 * @param kind what was looked for
 * @param scan the scan
 * @param laterality which eye; empty when not known
 * @param grid name of the grid; empty when the scan cannot have one
 * @param centre where the grid was put, in the coordinates of the scan's path; empty without grid
 * @param sectors one result for each of the grid's sectors in its order, then the total; empty
 *     without grid
 * @param whole the whole scan
 * @param found what can be counted over the whole scan; empty when too little of it was looked at
 */
public record RegionTable(
    RegionKind kind,
    ScanIdentity scan,
    Optional<Laterality> laterality,
    Optional<String> grid,
    Optional<Landmark> centre,
    List<RegionResult> sectors,
    RegionResult whole,
    Optional<Found> found) {
  /** The name of the result of a whole scan. */
  public static final String SCAN = "scan";

  public RegionTable {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(grid, "grid");
    Objects.requireNonNull(centre, "centre");
    sectors = List.copyOf(sectors);
    Objects.requireNonNull(whole, "whole");
    Objects.requireNonNull(found, "found");
  }

  /**
   * What was found in a scan beside volumes.
   *
   * @param regions number of separate regions of at least the countable size
   * @param largestSection the frame that cuts most of it; empty when nothing was found or the
   *     A-scans' places are not known
   */
  public record Found(int regions, Optional<Section> largestSection) {
    public Found {
      Objects.requireNonNull(largestSection, "largestSection");
    }
  }

  /**
   * What one frame cuts.
   *
   * @param frame 0-based
   * @param areaMm2 area within the frame in mm²
   */
  public record Section(int frame, double areaMm2) {}

  /** Returns the result of a sector, of the grid's total or of the scan, or empty. */
  public Optional<RegionResult> place(String name) {
    if (name.equals(SCAN)) {
      return Optional.of(whole);
    }
    return sectors.stream().filter(result -> result.place().equals(name)).findFirst();
  }
}
