package org.isopach.cli.accuracy;

/**
 * The errors of one boundary, A-scan by A-scan, with the confidence that was given. An A-scan is a
 * gross failure when its depth is more than {@link #GROSS_UM} from the truth.
 */
final class DepthTally {
  /** Beyond this error in µm a depth is a gross failure. */
  static final double GROSS_UM = 20;

  /** Below this confidence a depth warns of itself. */
  static final double WARNING = 0.5;

  private long found;
  private long missing;
  private long absent;
  private long invented;
  private long inventedSilently;
  private long gross;
  private long grossWarned;
  private double absolute;
  private double signed;

  /**
   * Adds an A-scan.
   *
   * @param trueUm true depth in µm, NaN where the boundary is absent or not in the frame
   * @param foundUm depth found in µm, NaN for none
   * @param confidence what was given with it, from 0 to 1; of no matter without a depth
   */
  void add(double trueUm, double foundUm, double confidence) {
    boolean given = !Double.isNaN(foundUm);
    if (Double.isNaN(trueUm)) {
      absent++;
      invented += given ? 1 : 0;
      inventedSilently += given && confidence >= WARNING ? 1 : 0;
    } else if (given) {
      addError(foundUm - trueUm, confidence);
    } else {
      missing++;
    }
  }

  private void addError(double um, double confidence) {
    found++;
    signed += um;
    absolute += Math.abs(um);
    if (Math.abs(um) > GROSS_UM) {
      gross++;
      grossWarned += confidence < WARNING ? 1 : 0;
    }
  }

  /** Returns the A-scans of several tallies together. */
  static DepthTally sum(Iterable<DepthTally> parts) {
    DepthTally all = new DepthTally();
    for (DepthTally part : parts) {
      all.found += part.found;
      all.missing += part.missing;
      all.absent += part.absent;
      all.invented += part.invented;
      all.inventedSilently += part.inventedSilently;
      all.gross += part.gross;
      all.grossWarned += part.grossWarned;
      all.absolute += part.absolute;
      all.signed += part.signed;
    }
    return all;
  }

  /** Returns the mean absolute error in µm, NaN when no depth was found. */
  double meanAbsolute() {
    return absolute / found;
  }

  /** Returns the mean error in µm, positive where found too deep; NaN when no depth was found. */
  double bias() {
    return signed / found;
  }

  /** Returns the number of gross failures. */
  long gross() {
    return gross;
  }

  /** Returns the share of A-scans with a truth that are gross failures; NaN when none has one. */
  double grossShare() {
    return (double) gross / (found + missing);
  }

  /** Returns the share of gross failures whose confidence warns; NaN without any failure. */
  double warnedShare() {
    return (double) grossWarned / gross;
  }

  /** Returns the share of A-scans with a truth in which no depth was found; NaN for none. */
  double missingShare() {
    return (double) missing / (found + missing);
  }

  /** Returns the share of A-scans without the boundary in which a depth was given; NaN for none. */
  double inventedShare() {
    return (double) invented / absent;
  }

  /** Returns the share of A-scans without the boundary with a depth that does not warn. */
  double inventedSilentlyShare() {
    return (double) inventedSilently / absent;
  }
}
