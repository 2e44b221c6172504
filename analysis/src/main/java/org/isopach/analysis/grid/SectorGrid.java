package org.isopach.analysis.grid;

import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;

/**
 * A named set of sectors round one landmark that do not overlap.
 *
 * @param name the grid's name in tables
 * @param sectors in the order of tables; at least one; the name {@value #TOTAL} is kept for the
 *     whole
 */
public record SectorGrid(String name, List<Sector> sectors) {
  /** The name of the area-weighted whole of a grid's sectors. */
  public static final String TOTAL = "total";

  private static final double LARGEST_RADIUS_MM = 5;
  private static final double LARGEST_CENTRE_RADIUS_MM = 1;

  /**
   * @throws IllegalArgumentException when names repeat, sectors overlap, or the radii look like
   *     diameters: a sector beyond 5 mm, or a ringed grid whose central disc reaches 1 mm
   */
  public SectorGrid {
    Objects.requireNonNull(name, "name");
    sectors = List.copyOf(sectors);
    if (sectors.isEmpty()) {
      throw new IllegalArgumentException(name + ": a grid needs at least one sector");
    }
    Set<String> names = new HashSet<>(Set.of(TOTAL));
    for (Sector sector : sectors) {
      if (!names.add(sector.name())) {
        throw new IllegalArgumentException(name + ": the name " + sector.name() + " is taken");
      }
      refuseDiameters(name, sector, sectors.size());
    }
    refuseOverlap(name, sectors);
  }

  /** Returns the largest radius of any sector in mm. */
  public double reachMm() {
    return sectors.stream().mapToDouble(Sector::outerRadiusMm).max().orElseThrow();
  }

  /** Returns the area of all sectors in mm². */
  public double areaMm2() {
    return sectors.stream().mapToDouble(Sector::areaMm2).sum();
  }

  private static void refuseDiameters(String grid, Sector sector, int count) {
    boolean wideCentre =
        count > 1
            && sector.innerRadiusMm() == 0
            && sector.isFullTurn()
            && sector.outerRadiusMm() >= LARGEST_CENTRE_RADIUS_MM;
    if (wideCentre || sector.outerRadiusMm() > LARGEST_RADIUS_MM) {
      throw new IllegalArgumentException(
          grid
              + ": "
              + sector.name()
              + " has the radius "
              + sector.outerRadiusMm()
              + " mm, which looks like a diameter");
    }
  }

  private static void refuseOverlap(String grid, List<Sector> sectors) {
    for (int i = 0; i < sectors.size(); i++) {
      for (int j = 0; j < i; j++) {
        if (sectors.get(i).overlaps(sectors.get(j))) {
          throw new IllegalArgumentException(
              grid + ": " + sectors.get(i).name() + " overlaps " + sectors.get(j).name());
        }
      }
    }
  }
}
