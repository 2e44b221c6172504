package org.isopach.analysis.nerve;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * The thickness of one layer round the fovea, for the ganglion cells.
 *
 * @param layer the two boundaries the thickness lies between
 * @param grid the annulus
 * @param laterality which eye
 * @param centre where the grid was put, in the coordinates of the scan's path
 * @param scan the scan measured
 * @param zero what angles were counted from
 * @param sectors one result for each of {@link GanglionGrid#SECTORS}, in that order
 * @param annulus the whole, not measurable unless every sector is
 * @param minimum the spoke of the least mean, named {@value #MINIMUM}
 * @param minimumTowardsDegrees the middle of that spoke; empty when there is no minimum
 * @param halves mean above the midline against mean below it
 * @param mirrored the same over those places only whose mirror image also has a value
 */
public record GanglionTable(
    Layer layer,
    GanglionGrid grid,
    Laterality laterality,
    Landmark centre,
    ScanIdentity scan,
    AngleZero zero,
    List<SectorResult> sectors,
    SectorResult annulus,
    SectorResult minimum,
    OptionalDouble minimumTowardsDegrees,
    MidlineResult halves,
    MidlineResult mirrored) {
  /** The name of the least spoke. */
  public static final String MINIMUM = "minimum";

  public GanglionTable {
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(grid, "grid");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(centre, "centre");
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(zero, "zero");
    sectors = List.copyOf(sectors);
    Objects.requireNonNull(annulus, "annulus");
    Objects.requireNonNull(minimum, "minimum");
    Objects.requireNonNull(minimumTowardsDegrees, "minimumTowardsDegrees");
    Objects.requireNonNull(halves, "halves");
    Objects.requireNonNull(mirrored, "mirrored");
  }
}
