package org.isopach.analysis.cross;

import java.util.Objects;

/**
 * The values of somebody's map, pixel by pixel as the object has them. Immutable.
 *
 * <p>Shape {@code (rows, columns)}; NaN where there is no value.
 */
public final class FieldValues {
  private final int rows;
  private final int columns;
  private final float[] values;

  /**
   * Makes values from a copy.
   *
   * @param values index {@code row * columns + column}; infinities become NaN
   * @throws IllegalArgumentException when the length does not fit
   */
  public FieldValues(int rows, int columns, float[] values) {
    if (rows < 1 || columns < 1 || values.length != Math.multiplyExact(rows, columns)) {
      throw new IllegalArgumentException(
          rows + " rows of " + columns + " need other than " + values.length + " values");
    }
    this.rows = rows;
    this.columns = columns;
    this.values = values.clone();
    for (int i = 0; i < values.length; i++) {
      if (Float.isInfinite(this.values[i])) {
        this.values[i] = Float.NaN;
      }
    }
  }

  /** Returns the number of rows. */
  public int rows() {
    return rows;
  }

  /** Returns the number of columns. */
  public int columns() {
    return columns;
  }

  /** Returns a value, NaN where there is none. */
  public float at(int row, int column) {
    Objects.checkIndex(row, rows);
    Objects.checkIndex(column, columns);
    return values[row * columns + column];
  }
}
