package org.isopach.dicom.derive;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.change.DifferenceMap;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.dicom.data.Code;

/**
 * A map in µm that the thickness map's code list has no place for.
 *
 * @param name what it shows, up to 64 ASCII characters
 * @param label the same as a code string
 * @param lattice its cells
 * @param centre the landmark at the lattice's (0, 0), in the coordinates of the scan's path
 * @param cells µm by row and column; NaN where there is no value
 * @param quantity the code of what it shows; empty when there is none
 * @param changed of a change, the code of the thickness that changed; empty when it has none, or
 *     {@code quantity} none
 */
public record MicrometreMap(
    String name,
    String label,
    MapLattice lattice,
    Landmark centre,
    Cells cells,
    Optional<Code> quantity,
    Optional<Code> changed) {
  /** Gives the value of a cell. */
  @FunctionalInterface
  public interface Cells {
    /** Returns µm; NaN where there is no value. */
    float at(int row, int column);
  }

  public MicrometreMap {
    Objects.requireNonNull(lattice, "lattice");
    Objects.requireNonNull(centre, "centre");
    Objects.requireNonNull(cells, "cells");
    Objects.requireNonNull(quantity, "quantity");
    Objects.requireNonNull(changed, "changed");
    if (changed.isPresent() && quantity.isEmpty()) {
      throw new IllegalArgumentException("a thickness that changed needs the code of its change");
    }
  }

  /** Returns the map of a layer. */
  public static MicrometreMap of(ThicknessMap map) {
    return new MicrometreMap(
        map.layer().name() + " thickness",
        "THICKNESS",
        map.lattice(),
        map.centre(),
        map::micrometres,
        LayerCode.of(map.layer()),
        Optional.empty());
  }

  /** Returns the change of a layer, follow-up minus baseline, where the follow-up was laid. */
  public static MicrometreMap of(DifferenceMap change) {
    return new MicrometreMap(
        change.followUp().layer().name() + " change of thickness",
        "CHANGE",
        change.lattice(),
        change.followUp().centre(),
        change::micrometres,
        Optional.of(ChangeCode.CHANGE),
        LayerCode.of(change.followUp().layer()));
  }
}
