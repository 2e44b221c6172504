package org.isopach.dicom.derive;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.map.MapLattice;

/**
 * A projection of a scan onto the fundus, as a grey picture on a lattice of mm.
 *
 * @param lattice its cells
 * @param origin the lattice's (0, 0) in the coordinates of the scan's path
 * @param slab what was projected
 * @param range the grey values run from minus to plus this; larger ones are cut off
 * @param cells brightness against the surroundings, standard deviations; dark below 0, NaN where
 *     there is none
 */
public record EnFacePicture(
    MapLattice lattice, FundusPoint origin, Slab slab, double range, MicrometreMap.Cells cells) {
  public EnFacePicture {
    Objects.requireNonNull(lattice, "lattice");
    Objects.requireNonNull(origin, "origin");
    Objects.requireNonNull(slab, "slab");
    Objects.requireNonNull(cells, "cells");
    if (!(range > 0)) {
      throw new IllegalArgumentException("range must be positive, was " + range);
    }
  }

  /**
   * The depths whose grey values were averaged.
   *
   * @param below the boundary they are counted from, downwards
   * @param firstUm where the slab begins, um
   * @param lastUm where it ends, um
   */
  public record Slab(Boundary below, double firstUm, double lastUm) {
    public Slab {
      Objects.requireNonNull(below, "below");
      if (!(firstUm >= 0 && lastUm > firstUm)) {
        throw new IllegalArgumentException("no slab from " + firstUm + " to " + lastUm + " um");
      }
    }
  }
}
