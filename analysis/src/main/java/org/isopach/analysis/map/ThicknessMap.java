package org.isopach.analysis.map;

import java.util.Objects;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.SourceDocument;

/**
 * The thickness of one layer on a lattice of mm, in µm. Immutable.
 *
 * <p>Shape {@code (rows, columns)} of its lattice. NaN means "no value here": outside the scan, or
 * where a boundary was not measurable. Thickness is along the A-scan, not perpendicular to the
 * layer.
 */
public final class ThicknessMap {
  private final Layer layer;
  private final Laterality laterality;
  private final MapLattice lattice;
  private final Landmark centre;
  private final ScanIdentity scan;
  private final SourceDocument document;
  private final float[] micrometres;

  /**
   * Makes a map from a copy of its values.
   *
   * @param micrometres thickness in µm, index {@code row * columns + column}; NaN where none
   * @throws IllegalArgumentException when the length does not fit or a value is infinite
   */
  public ThicknessMap(
      Layer layer,
      Laterality laterality,
      MapLattice lattice,
      Landmark centre,
      ScanIdentity scan,
      SourceDocument document,
      float[] micrometres) {
    this.layer = Objects.requireNonNull(layer, "layer");
    this.laterality = Objects.requireNonNull(laterality, "laterality");
    this.lattice = Objects.requireNonNull(lattice, "lattice");
    this.centre = Objects.requireNonNull(centre, "centre");
    this.scan = Objects.requireNonNull(scan, "scan");
    this.document = Objects.requireNonNull(document, "document");
    if (micrometres.length != lattice.cells()) {
      throw new IllegalArgumentException(
          "expected " + lattice.cells() + " values, had " + micrometres.length);
    }
    for (float value : micrometres) {
      if (Float.isInfinite(value)) {
        throw new IllegalArgumentException("a thickness must not be infinite");
      }
    }
    this.micrometres = micrometres.clone();
  }

  /** Returns the two boundaries the thickness lies between. */
  public Layer layer() {
    return layer;
  }

  /** Returns which eye. */
  public Laterality laterality() {
    return laterality;
  }

  /** Returns the lattice. */
  public MapLattice lattice() {
    return lattice;
  }

  /** Returns the landmark at the lattice's (0, 0), in the coordinates of the scan's path. */
  public Landmark centre() {
    return centre;
  }

  /** Returns the scan the map was made from. */
  public ScanIdentity scan() {
    return scan;
  }

  /** Returns the document the scan came from. */
  public SourceDocument document() {
    return document;
  }

  /** Returns the thickness in µm of a cell, NaN where there is none. */
  public float micrometres(int row, int column) {
    Objects.checkIndex(row, lattice.rows());
    Objects.checkIndex(column, lattice.columns());
    return micrometres[row * lattice.columns() + column];
  }

  /** Returns the share of cells that have a value, from 0 to 1. */
  public double coveredFraction() {
    int found = 0;
    for (float value : micrometres) {
      if (!Float.isNaN(value)) {
        found++;
      }
    }
    return (double) found / micrometres.length;
  }
}
