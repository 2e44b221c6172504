package org.isopach.cli.accuracy.nerve;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.nerve.ProfileDefect;

/**
 * What was found of one lost bundle. Angles in degrees of the picture.
 *
 * @param found whether a defect that was found covers the middle of the bundle
 * @param placedDegrees its middle less the true one; NaN when none was found
 * @param depthUm its greatest depth, µm; NaN when none was found
 * @param widthDegrees its width; NaN when none was found
 * @param besides how many defects were found elsewhere
 */
record WedgeScore(
    boolean found, double placedDegrees, double depthUm, double widthDegrees, int besides) {
  private static final double TURN = 360;

  /**
   * Scores what was found.
   *
   * @param defects what was found
   * @param lossUm the true loss round the circle, equally spaced from angle 0, µm
   */
  static WedgeScore of(List<ProfileDefect> defects, double[] lossUm) {
    double middle = middleDegrees(lossUm);
    Optional<ProfileDefect> hit =
        defects.stream()
            .filter(one -> Math.abs(away(one.centreDegrees(), middle)) <= one.widthDegrees() / 2)
            .findFirst();
    int besides = defects.size() - (hit.isPresent() ? 1 : 0);
    return hit.map(
            one ->
                new WedgeScore(
                    true,
                    away(one.centreDegrees(), middle),
                    one.maxDepthUm(),
                    one.widthDegrees(),
                    besides))
        .orElse(new WedgeScore(false, Double.NaN, Double.NaN, Double.NaN, besides));
  }

  /** Returns the middle of a loss, each sample weighted with its own loss. */
  static double middleDegrees(double[] lossUm) {
    double x = 0;
    double y = 0;
    for (int i = 0; i < lossUm.length; i++) {
      double angle = 2 * Math.PI * i / lossUm.length;
      double weight = Double.isNaN(lossUm[i]) ? 0 : lossUm[i];
      x += weight * Math.cos(angle);
      y += weight * Math.sin(angle);
    }
    return (Math.toDegrees(Math.atan2(y, x)) + TURN) % TURN;
  }

  /** Returns the signed way from one angle to another, at most half a turn. */
  static double away(double degrees, double from) {
    return Math.IEEEremainder(degrees - from, TURN);
  }
}
