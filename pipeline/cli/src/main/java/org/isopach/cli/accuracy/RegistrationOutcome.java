package org.isopach.cli.accuracy;

import java.util.List;

/**
 * What came of one registration.
 *
 * @param found whether vessels were matched
 * @param halfSpacingUm half the distance of the follow-up's A-scans
 * @param errorsUm distance in µm between where A-scans were and where they were laid, within 3 mm
 *     of the fovea; the A-scan nearest to the fovea first
 * @param statedSdUm the standard deviation that registration itself states, along each axis
 */
record RegistrationOutcome(
    boolean found, double halfSpacingUm, List<Double> errorsUm, double statedSdUm) {
  /** Median error in µm above which a registration is wrong, not inexact. */
  private static final double WRONG_UM = 100;

  RegistrationOutcome {
    errorsUm = List.copyOf(errorsUm);
  }

  double medianUm() {
    List<Double> sorted = errorsUm.stream().sorted().toList();
    return sorted.isEmpty() ? Double.NaN : sorted.get(sorted.size() / 2);
  }

  /** Root mean square along each axis, µm. */
  double rootMeanSquareUm() {
    return Math.sqrt(errorsUm.stream().mapToDouble(e -> e * e).average().orElse(Double.NaN) / 2);
  }

  boolean wrong() {
    return found && !(medianUm() <= WRONG_UM);
  }
}
