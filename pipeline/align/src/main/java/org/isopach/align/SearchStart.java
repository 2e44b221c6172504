package org.isopach.align;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;

/**
 * Where to begin looking for a follow-up on its baseline.
 *
 * @param from a point of the follow-up
 * @param guess from the follow-up's coordinates to the baseline's
 * @param reachMm how far the guess may be wrong at that point, right or down
 */
record SearchStart(FundusPoint from, FundusTransform guess, double reachMm) {
  private static final double NEAR_MM = 0.4;
  private static final double FAR_MM = 1.6;

  SearchStart {
    Objects.requireNonNull(from, "from");
    Objects.requireNonNull(guess, "guess");
  }

  /** One point of the retina was found in both scans, near enough. */
  static SearchStart near(FundusPoint from, FundusPoint to) {
    return new SearchStart(from, FundusTransform.translation(to.minus(from)), NEAR_MM);
  }

  /** The two points may be far apart. */
  static SearchStart far(FundusPoint from, FundusPoint to) {
    return new SearchStart(from, FundusTransform.translation(to.minus(from)), FAR_MM);
  }

  /** The registration is stated. */
  static SearchStart stated(FundusPoint from, FundusTransform stated) {
    return new SearchStart(from, stated, NEAR_MM);
  }

  boolean isFar() {
    return reachMm > NEAR_MM;
  }

  Pose pose() {
    return Pose.of(guess, from);
  }
}
