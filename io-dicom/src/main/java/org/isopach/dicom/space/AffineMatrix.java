package org.isopach.dicom.space;

import java.util.ArrayList;
import java.util.List;

/**
 * A map of space onto itself that keeps straight lines: three rows of a 4 x 4 matrix, whose last
 * row is 0, 0, 0, 1. Points are columns, mm. Immutable.
 */
public final class AffineMatrix {
  /** Leaves every point where it is. */
  public static final AffineMatrix IDENTITY =
      new AffineMatrix(new double[] {1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0});

  private static final int COLUMNS = 4;

  private final double[] rows;

  private AffineMatrix(double[] rows) {
    this.rows = rows;
    for (double value : rows) {
      if (!Double.isFinite(value)) {
        throw new IllegalArgumentException("a matrix must be finite");
      }
    }
  }

  /**
   * Returns the matrix of twelve numbers, row by row.
   *
   * @throws IllegalArgumentException when there are not twelve or one is not finite
   */
  public static AffineMatrix ofRows(double... twelve) {
    if (twelve.length != 12) {
      throw new IllegalArgumentException("twelve numbers are needed, had " + twelve.length);
    }
    return new AffineMatrix(twelve.clone());
  }

  /** Returns an element by 0-based row, 0 to 2, and column, 0 to 3. */
  public double at(int row, int column) {
    return rows[row * COLUMNS + column];
  }

  /** Returns all sixteen numbers, row by row. */
  public List<Double> values() {
    List<Double> all = new ArrayList<>(16);
    for (double value : rows) {
      all.add(value);
    }
    all.addAll(List.of(0.0, 0.0, 0.0, 1.0));
    return all;
  }

  /** Returns whether no number differs from another map's by more than some amount. */
  public boolean near(AffineMatrix other, double most) {
    for (int i = 0; i < rows.length; i++) {
      if (!(Math.abs(rows[i] - other.rows[i]) <= most)) {
        return false;
      }
    }
    return true;
  }

  /** Returns the map that does this one first, then the next. */
  public AffineMatrix then(AffineMatrix next) {
    double[] product = new double[12];
    for (int r = 0; r < 3; r++) {
      for (int c = 0; c < COLUMNS; c++) {
        double sum = c == 3 ? next.at(r, 3) : 0;
        for (int k = 0; k < 3; k++) {
          sum += next.at(r, k) * at(k, c);
        }
        product[r * COLUMNS + c] = sum;
      }
    }
    return new AffineMatrix(product);
  }

  /** Returns the volume that a unit cube becomes; negative for a mirror image. */
  public double determinant() {
    double sum = 0;
    for (int c = 0; c < 3; c++) {
      sum += at(0, c) * cofactor(0, c);
    }
    return sum;
  }

  /**
   * Returns the map that takes every point back.
   *
   * @throws IllegalArgumentException when space is flattened, so that there is none
   */
  public AffineMatrix inverse() {
    double determinant = determinant();
    double[] inverse = new double[12];
    for (int r = 0; r < 3; r++) {
      for (int c = 0; c < 3; c++) {
        inverse[r * COLUMNS + c] = cofactor(c, r) / determinant;
      }
    }
    for (int r = 0; r < 3; r++) {
      double sum = 0;
      for (int k = 0; k < 3; k++) {
        sum += inverse[r * COLUMNS + k] * at(k, 3);
      }
      inverse[r * COLUMNS + 3] = -sum;
    }
    return new AffineMatrix(inverse);
  }

  /** Returns the length that a unit step along an axis, 0 to 2, becomes. */
  public double stretch(int axis) {
    return Math.sqrt(dot(axis, axis));
  }

  /** Returns the scalar product of what unit steps along two axes become. */
  public double dot(int axis, int other) {
    double sum = 0;
    for (int r = 0; r < 3; r++) {
      sum += at(r, axis) * at(r, other);
    }
    return sum;
  }

  private double cofactor(int row, int column) {
    int r1 = (row + 1) % 3;
    int r2 = (row + 2) % 3;
    int c1 = (column + 1) % 3;
    int c2 = (column + 2) % 3;
    return at(r1, c1) * at(r2, c2) - at(r1, c2) * at(r2, c1);
  }

  @Override
  public String toString() {
    return values().toString();
  }
}
