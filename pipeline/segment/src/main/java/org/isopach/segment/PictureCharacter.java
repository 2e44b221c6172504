package org.isopach.segment;

import java.util.Arrays;

/**
 * What a frame looks like as a whole, from its averaged cells; tells pictures that are not retinas
 * seen the right way.
 *
 * @param medianPlace where the median grey lies between the 1st (0) and the 99th percentile (1);
 *     dark vitreous and choroid fill most of a frame, so it is low
 * @param columnsToRows variance of the means of columns over that of the means of rows; layers run
 *     along the rows, so it is low
 */
record PictureCharacter(double medianPlace, double columnsToRows) {
  private static final double LOWEST = 0.01;
  private static final int SAMPLING = 17;

  /**
   * Returns the character of a frame.
   *
   * @param cells index {@code row * columns + column}
   */
  static PictureCharacter of(float[] cells, int columns) {
    float[] sorted = new float[(cells.length + SAMPLING - 1) / SAMPLING];
    for (int i = 0; i < sorted.length; i++) {
      sorted[i] = cells[i * SAMPLING];
    }
    Arrays.sort(sorted);
    int last = sorted.length - 1;
    double low = sorted[(int) (LOWEST * last)];
    double high = sorted[last - (int) (LOWEST * last)];
    double place = high > low ? (sorted[last / 2] - low) / (high - low) : 0;
    return new PictureCharacter(place, ratio(cells, columns));
  }

  private static double ratio(float[] cells, int columns) {
    int rows = cells.length / columns;
    double[] ofColumns = new double[columns];
    double[] ofRows = new double[rows];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        double value = cells[r * columns + c];
        ofColumns[c] += value / rows;
        ofRows[r] += value / columns;
      }
    }
    double acrossRows = variance(ofRows);
    return acrossRows > 0 ? variance(ofColumns) / acrossRows : 0;
  }

  private static double variance(double[] values) {
    double mean = Arrays.stream(values).average().orElse(0);
    return Arrays.stream(values).map(v -> (v - mean) * (v - mean)).average().orElse(0);
  }
}
