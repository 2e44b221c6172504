package org.isopach.report.picture;

import java.util.List;
import org.isopach.analysis.map.MapLattice;

/**
 * The values a sheet shows: one for each cell of a lattice, in µm, NaN for "no value here".
 *
 * <p>Shape {@code (rows, columns)} of the lattice; x to the right, y down, mm from the landmark.
 */
final class ValueField {
  private final MapLattice lattice;
  private final float[] values;

  /** Reads one cell. */
  @FunctionalInterface
  interface Cell {
    /** Returns the value in µm, or NaN. */
    float at(int row, int column);
  }

  private ValueField(MapLattice lattice, float[] values) {
    this.lattice = lattice;
    this.values = values;
  }

  static ValueField of(MapLattice lattice, Cell cell) {
    float[] values = new float[lattice.cells()];
    for (int row = 0; row < lattice.rows(); row++) {
      for (int column = 0; column < lattice.columns(); column++) {
        values[row * lattice.columns() + column] = cell.at(row, column);
      }
    }
    return new ValueField(lattice, values);
  }

  MapLattice lattice() {
    return lattice;
  }

  float at(int row, int column) {
    return values[row * lattice.columns() + column];
  }

  /**
   * Returns the value at a place in mm, bilinear between cell centres; NaN outside the lattice and
   * wherever the nearest cell has no value. Cells without a value take no part in the mean.
   */
  float sample(double xMm, double yMm) {
    double column = (xMm - lattice.firstXMm()) / lattice.stepMm();
    double row = (yMm - lattice.firstYMm()) / lattice.stepMm();
    int nearRow = (int) Math.rint(row);
    int nearColumn = (int) Math.rint(column);
    if (!inside(nearRow, nearColumn) || Float.isNaN(at(nearRow, nearColumn))) {
      return Float.NaN;
    }
    int r = (int) Math.floor(row);
    int c = (int) Math.floor(column);
    if (r >= 0 && c >= 0 && r + 1 < lattice.rows() && c + 1 < lattice.columns()) {
      double all = between(r, c, row - r, column - c);
      if (!Double.isNaN(all)) {
        return (float) all;
      }
    }
    double sum = 0;
    double weights = 0;
    for (int k = 0; k < 4; k++) {
      int rr = r + k / 2;
      int cc = c + k % 2;
      if (inside(rr, cc) && !Float.isNaN(at(rr, cc))) {
        double weight = (1 - Math.abs(row - rr)) * (1 - Math.abs(column - cc));
        sum += weight * at(rr, cc);
        weights += weight;
      }
    }
    return (float) (sum / weights);
  }

  /** Returns the bilinear mean of four cells; NaN when one of them has no value. */
  private double between(int r, int c, double down, double right) {
    int i = r * lattice.columns() + c;
    double upper = values[i] + right * (values[i + 1] - values[i]);
    int j = i + lattice.columns();
    double lower = values[j] + right * (values[j + 1] - values[j]);
    return upper + down * (lower - upper);
  }

  /**
   * Returns this field smoothed by a Gaussian, for drawing calm contour lines. Missing cells stay
   * missing and lend nothing to their neighbours.
   *
   * @param sigmaMm standard deviation in mm
   */
  ValueField smoothed(double sigmaMm) {
    double[] kernel = kernel(sigmaMm / lattice.stepMm());
    double[] sum = new double[values.length];
    double[] weight = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      boolean there = !Float.isNaN(values[i]);
      sum[i] = there ? values[i] : 0;
      weight[i] = there ? 1 : 0;
    }
    sum = blurColumns(blurRows(sum, kernel), kernel);
    weight = blurColumns(blurRows(weight, kernel), kernel);
    float[] smooth = new float[values.length];
    for (int i = 0; i < values.length; i++) {
      smooth[i] = Float.isNaN(values[i]) ? Float.NaN : (float) (sum[i] / weight[i]);
    }
    return new ValueField(lattice, smooth);
  }

  /** Returns this field with every cell taken out whose centre lies in one of the sectors. */
  ValueField without(List<SheetSector> sectors) {
    if (sectors.isEmpty()) {
      return this;
    }
    return of(
        lattice,
        (row, column) -> {
          double x = lattice.xMm(column);
          double y = lattice.yMm(row);
          boolean out = sectors.stream().anyMatch(sector -> sector.contains(x, y));
          return out ? Float.NaN : at(row, column);
        });
  }

  private boolean inside(int row, int column) {
    return row >= 0 && row < lattice.rows() && column >= 0 && column < lattice.columns();
  }

  private static double[] kernel(double sigma) {
    int reach = Math.max(1, (int) Math.ceil(3 * sigma));
    double[] kernel = new double[reach + 1];
    for (int i = 0; i <= reach; i++) {
      kernel[i] = Math.exp(-0.5 * i * i / (sigma * sigma));
    }
    return kernel;
  }

  private double[] blurRows(double[] in, double[] kernel) {
    return blur(in, kernel, lattice.rows(), lattice.columns(), lattice.columns(), 1);
  }

  private double[] blurColumns(double[] in, double[] kernel) {
    return blur(in, kernel, lattice.columns(), lattice.rows(), 1, lattice.columns());
  }

  private static double[] blur(
      double[] in, double[] kernel, int lines, int length, int lineStep, int step) {
    double[] out = new double[in.length];
    for (int line = 0; line < lines; line++) {
      int base = line * lineStep;
      int reach = kernel.length - 1;
      for (int i = 0; i < length; i++) {
        double sum = kernel[0] * in[base + i * step];
        if (i >= reach && i + reach < length) {
          for (int k = 1; k <= reach; k++) {
            sum += kernel[k] * (in[base + (i - k) * step] + in[base + (i + k) * step]);
          }
          out[base + i * step] = sum;
          continue;
        }
        for (int k = 1; k < kernel.length; k++) {
          sum += i - k >= 0 ? kernel[k] * in[base + (i - k) * step] : 0;
          sum += i + k < length ? kernel[k] * in[base + (i + k) * step] : 0;
        }
        out[base + i * step] = sum;
      }
    }
    return out;
  }
}
