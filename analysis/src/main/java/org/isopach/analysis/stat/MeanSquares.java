package org.isopach.analysis.stat;

/**
 * Mean squares of a complete table of subjects (rows) and repeats or judges (columns), one value in
 * each cell.
 *
 * @param subjects number of rows n, at least 2
 * @param repeats number of columns k, at least 2
 * @param betweenSubjects BMS, n − 1 degrees of freedom
 * @param betweenRepeats JMS, k − 1 degrees of freedom
 * @param error EMS, (n − 1)(k − 1) degrees of freedom
 */
public record MeanSquares(
    int subjects, int repeats, double betweenSubjects, double betweenRepeats, double error) {

  /**
   * Returns the mean squares.
   *
   * @param table a row for each subject, all of the same length, finite
   * @throws CannotEstimateException when there are fewer than 2 subjects or repeats
   * @throws IllegalArgumentException when rows differ in length or a value is not finite
   */
  public static MeanSquares of(double[][] table) {
    int n = table.length;
    if (n < 2) {
      throw CannotEstimateException.tooFew("subjects", 2, n);
    }
    int k = table[0].length;
    if (k < 2) {
      throw CannotEstimateException.tooFew("repeats", 2, k);
    }
    double[] rows = new double[n];
    double[] columns = new double[k];
    double origin = table[0][0];
    for (int i = 0; i < n; i++) {
      if (table[i].length != k) {
        throw new IllegalArgumentException(
            "row " + i + " has " + table[i].length + " values, the first has " + k);
      }
      Values.requireFinite(table[i], "row " + i + ", value");
      for (int j = 0; j < k; j++) {
        rows[i] += (table[i][j] - origin) / k;
        columns[j] += (table[i][j] - origin) / n;
      }
    }
    double grand = Values.mean(rows);
    double squares = 0;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < k; j++) {
        double rest = table[i][j] - origin - rows[i] - columns[j] + grand;
        squares += rest * rest;
      }
    }
    return new MeanSquares(
        n,
        k,
        k * Values.sumOfSquares(rows) / (n - 1),
        n * Values.sumOfSquares(columns) / (k - 1),
        squares / ((n - 1.0) * (k - 1)));
  }

  /** Returns WMS, the mean square within subjects, with n (k − 1) degrees of freedom. */
  public double withinSubjects() {
    return (betweenRepeats + (subjects - 1) * error) / subjects;
  }
}
