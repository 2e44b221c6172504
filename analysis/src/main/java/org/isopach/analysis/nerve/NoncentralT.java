package org.isopach.analysis.nerve;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.isopach.analysis.stat.ConfidenceInterval;

/**
 * The power of a two-sided t test at 5 %, by the noncentral t distribution: T = (Z + δ) / s, s² =
 * χ²_ν / ν, so that P(|T| > t) is the mean over s of Φ(δ − t s) + Φ(−δ − t s). Gauss–Legendre over
 * all but 2e-10 of χ²; agrees with an independent program to 1e-7.
 */
final class NoncentralT {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);
  private static final GaussIntegrator QUADRATURE = new GaussIntegratorFactory().legendre(60);
  private static final double OUTSIDE = 1e-10;

  private final int degreesOfFreedom;
  private final double limit;
  private final ChiSquaredDistribution chi;
  private final double from;
  private final double to;

  NoncentralT(int degreesOfFreedom) {
    this.degreesOfFreedom = degreesOfFreedom;
    this.limit =
        new TDistribution(null, degreesOfFreedom)
            .inverseCumulativeProbability((1 + ConfidenceInterval.USUAL_LEVEL) / 2);
    this.chi = new ChiSquaredDistribution(null, degreesOfFreedom);
    this.from = Math.sqrt(chi.inverseCumulativeProbability(OUTSIDE));
    this.to = Math.sqrt(chi.inverseCumulativeProbability(1 - OUTSIDE));
  }

  /** Returns the chance that |T| exceeds the 97.5 % quantile of the central t distribution. */
  double power(double shift) {
    double half = (to - from) / 2;
    return half * QUADRATURE.integrate(x -> density(from + half * (1 + x), shift));
  }

  /** Over the root of χ², whose density is finite at 0 for one degree of freedom as well. */
  private double density(double root, double shift) {
    double edge = limit * root / Math.sqrt(degreesOfFreedom);
    double outside =
        NORMAL.cumulativeProbability(shift - edge) + NORMAL.cumulativeProbability(-shift - edge);
    return 2 * root * chi.density(root * root) * outside;
  }

  /** Returns the shift that has such a power, to 1e-6. */
  double shiftFor(double power) {
    double most = 4;
    while (power(most) < power) {
      most *= 2;
    }
    return new BrentSolver(1e-6).solve(1000, shift -> power(shift) - power, 0, most);
  }
}
