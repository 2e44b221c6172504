package org.isopach.analysis.stat;

import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.FDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Quantiles to about 13 digits. No generator of random numbers is made: the distributions are asked
 * for quantiles only.
 */
final class Quantiles {
  private static final double SOLVER_ACCURACY = 1e-15;

  private Quantiles() {}

  static double normal(double p) {
    return new NormalDistribution(null, 0, 1).inverseCumulativeProbability(p);
  }

  static double t(double p, double degreesOfFreedom) {
    return new TDistribution(null, degreesOfFreedom, SOLVER_ACCURACY)
        .inverseCumulativeProbability(p);
  }

  /** Returns the half-width, in standard errors, of a two-sided t interval. */
  static double twoSidedT(double level, double degreesOfFreedom) {
    ConfidenceInterval.requireLevel(level);
    return t((1 + level) / 2, degreesOfFreedom);
  }

  static double chiSquare(double p, double degreesOfFreedom) {
    return new ChiSquaredDistribution(null, degreesOfFreedom, SOLVER_ACCURACY)
        .inverseCumulativeProbability(p);
  }

  static double f(double p, double numerator, double denominator) {
    return new FDistribution(null, numerator, denominator, SOLVER_ACCURACY)
        .inverseCumulativeProbability(p);
  }
}
