package org.isopach.align;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;

/**
 * Values of a scan's A-scans on a lattice of mm, to be read with their slope anywhere between.
 *
 * <p>Coordinates are those of the scan's path. Not safe for use by several threads: a reading is
 * left in the fields until the next.
 */
final class ShadowMap {
  static final double STEP_MM = 0.02;
  private static final MapInterpolator INTERPOLATOR =
      new MapInterpolator(InterpolationRules.DEFAULT);

  private final MapLattice lattice;
  private final FundusPoint origin;
  private final float[] values;
  private final int rows;
  private final int columns;
  private final double firstX;
  private final double firstY;

  /** The value found by the last {@link #read}. */
  double value;

  /** Its slope to the right, per mm. */
  double slopeX;

  /** Its slope downwards, per mm. */
  double slopeY;

  private ShadowMap(MapLattice lattice, FundusPoint origin, float[] values) {
    this.lattice = lattice;
    this.origin = origin;
    this.values = values;
    this.rows = lattice.rows();
    this.columns = lattice.columns();
    this.firstX = lattice.xMm(0) + origin.xMm();
    this.firstY = lattice.yMm(0) + origin.yMm();
  }

  /** Returns the map of values given at the A-scans of a path; NaN where there is none. */
  static ShadowMap of(ScanPath path, double[] values) {
    FundusPoint middle = path.middle();
    FundusPoint extent = path.extent();
    int halfColumns = (int) Math.ceil(extent.xMm() / 2 / STEP_MM);
    int halfRows = (int) Math.ceil(extent.yMm() / 2 / STEP_MM);
    MapLattice lattice =
        new MapLattice(
            2 * halfRows + 1,
            2 * halfColumns + 1,
            STEP_MM,
            -halfColumns * STEP_MM,
            -halfRows * STEP_MM);
    Landmark centre = new Landmark(middle, Landmark.Source.STATED);
    return new ShadowMap(lattice, middle, INTERPOLATOR.interpolate(path, centre, values, lattice));
  }

  /** Returns this map smoothed both ways by a Gaussian. */
  ShadowMap blurred(double sigmaMm) {
    double[] kernel = Gaussian.kernel(sigmaMm / STEP_MM);
    float[] across = new float[values.length];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        across[r * columns + c] = (float) Gaussian.at(values, r * columns, 1, columns, c, kernel);
      }
    }
    float[] both = new float[values.length];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        both[r * columns + c] = (float) Gaussian.at(across, c, columns, rows, r, kernel);
      }
    }
    return new ShadowMap(lattice, origin, both);
  }

  /** Reads value and slopes at a place; false, with nothing read, where a neighbour has none. */
  boolean read(double xMm, double yMm) {
    double u = (xMm - firstX) / STEP_MM;
    double v = (yMm - firstY) / STEP_MM;
    int c = (int) Math.floor(u);
    int r = (int) Math.floor(v);
    if (c < 0 || r < 0 || c + 1 >= columns || r + 1 >= rows) {
      return false;
    }
    double p = u - c;
    double q = v - r;
    int i = r * columns + c;
    double a = values[i];
    double b = values[i + 1];
    double d = values[i + columns];
    double e = values[i + columns + 1];
    double top = a + p * (b - a);
    double bottom = d + p * (e - d);
    value = top + q * (bottom - top);
    slopeX = ((1 - q) * (b - a) + q * (e - d)) / STEP_MM;
    slopeY = (bottom - top) / STEP_MM;
    return !Double.isNaN(value);
  }

  MapLattice lattice() {
    return lattice;
  }

  FundusPoint origin() {
    return origin;
  }

  int rows() {
    return rows;
  }

  int columns() {
    return columns;
  }

  double xMm(int column) {
    return firstX + column * STEP_MM;
  }

  double yMm(int row) {
    return firstY + row * STEP_MM;
  }

  float cell(int row, int column) {
    return values[row * columns + column];
  }
}
