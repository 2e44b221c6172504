package org.isopach.analysis.grid;

import java.util.List;
import java.util.Optional;

/**
 * The grids of the Early Treatment Diabetic Retinopathy Study.
 *
 * <p>Circles and lines as in DICOM PS3.17, annex UU.5: three circles round the fovea, given by
 * their <em>diameters</em>, and lines at 45, 135, 225 and 315 degrees from the innermost outwards.
 */
public final class EtdrsGrids {
  /** Circles of 1, 3 and 6 mm diameter. */
  public static final SectorGrid ETDRS_1_3_6 = ofDiameters("etdrs-1-3-6", 1, 3, 6);

  /** Circles of 1, 2.22 and 3.45 mm diameter (diameters cited from memory). */
  public static final SectorGrid ETDRS_1_2_22_3_45 =
      ofDiameters("etdrs-1-2.22-3.45", 1, 2.22, 3.45);

  private static final List<SectorGrid> ALL = List.of(ETDRS_1_3_6, ETDRS_1_2_22_3_45);

  private EtdrsGrids() {}

  /** Returns all grids there are, the usual one first. */
  public static List<SectorGrid> all() {
    return ALL;
  }

  /** Returns the grid of a name, or empty. */
  public static Optional<SectorGrid> ofName(String name) {
    return ALL.stream().filter(grid -> grid.name().equals(name)).findFirst();
  }

  private static SectorGrid ofDiameters(String name, double centre, double inner, double outer) {
    double r1 = centre / 2;
    double r2 = inner / 2;
    double r3 = outer / 2;
    return new SectorGrid(
        name,
        List.of(
            Sector.disc("centre", r1),
            new Sector("inner-superior", r1, r2, 45, 135),
            new Sector("inner-nasal", r1, r2, -45, 45),
            new Sector("inner-inferior", r1, r2, 225, 315),
            new Sector("inner-temporal", r1, r2, 135, 225),
            new Sector("outer-superior", r2, r3, 45, 135),
            new Sector("outer-nasal", r2, r3, -45, 45),
            new Sector("outer-inferior", r2, r3, 225, 315),
            new Sector("outer-temporal", r2, r3, 135, 225)));
  }
}
