package org.isopach.cli.accuracy;

/**
 * The errors of one boundary, found depth minus true depth in µm, gathered A-scan by A-scan.
 * Percentiles are read from bins of 0.1 µm; errors beyond ±300 µm count as 300 µm there.
 */
final class ErrorTally {
  private static final double BIN_UM = 0.1;
  private static final int HALF = 3000;

  private final int[] bins = new int[2 * HALF + 1];
  private double signed;
  private double absolute;
  private double squares;
  private long found;
  private long missing;
  private long absent;
  private long invented;

  /** Adds an A-scan that has a truth. */
  void add(double trueUm, double foundUm) {
    if (Double.isNaN(foundUm)) {
      missing++;
      return;
    }
    double error = foundUm - trueUm;
    found++;
    signed += error;
    absolute += Math.abs(error);
    squares += error * error;
    long bin = Math.round(error / BIN_UM);
    bins[(int) Math.max(0, Math.min(2L * HALF, bin + HALF))]++;
  }

  /** Adds an A-scan in which the boundary is absent. */
  void addAbsent(double foundUm) {
    absent++;
    if (!Double.isNaN(foundUm)) {
      invented++;
    }
  }

  /** Returns the errors of several scans together. */
  static ErrorTally sum(Iterable<ErrorTally> parts) {
    ErrorTally all = new ErrorTally();
    for (ErrorTally part : parts) {
      for (int i = 0; i < all.bins.length; i++) {
        all.bins[i] += part.bins[i];
      }
      all.signed += part.signed;
      all.absolute += part.absolute;
      all.squares += part.squares;
      all.found += part.found;
      all.missing += part.missing;
      all.absent += part.absent;
      all.invented += part.invented;
    }
    return all;
  }

  /** Returns the mean absolute error in µm, NaN when no depth was found. */
  double meanAbsolute() {
    return absolute / found;
  }

  /** Returns the mean error in µm, positive where found too deep. */
  double bias() {
    return signed / found;
  }

  /** Returns the standard deviation of the error in µm. */
  double spread() {
    return Math.sqrt(Math.max(0, squares / found - bias() * bias()));
  }

  /** Returns the absolute error in µm that a share (0 to 1) of the A-scans does not exceed. */
  double percentile(double share) {
    if (found == 0) {
      return Double.NaN;
    }
    long sum = bins[HALF];
    int reach = 0;
    while (sum < share * found) {
      reach++;
      sum += bins[HALF - reach] + bins[HALF + reach];
    }
    return reach * BIN_UM;
  }

  /** Returns the share of A-scans with a truth in which no depth was found, from 0 to 1. */
  double missingShare() {
    return (double) missing / (found + missing);
  }

  /** Returns the share of A-scans without the boundary in which a depth was found; NaN for none. */
  double inventedShare() {
    return (double) invented / absent;
  }
}
