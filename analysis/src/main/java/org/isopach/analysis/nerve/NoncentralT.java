package org.isopach.analysis.nerve;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.isopach.analysis.stat.ConfidenceInterval;

/**
 * The power of a two-sided t test, by the noncentral t distribution: T = (Z + δ) / √(χ²_ν / ν), so
 * that P(|T| > t) is the mean over χ² of Φ(δ − t s) + Φ(−δ − t s), s = √(χ²_ν / ν). Gauss–Legendre
 * over equal shares of χ²; agrees with tables to 1e-4 or better.
 */
final class NoncentralT {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);
  private static final int POINTS = 100;

  private NoncentralT() {}

  /** Returns the chance that |T| exceeds the 5 % quantile of the central t distribution. */
  static double beyond(double shift, int degreesOfFreedom) {
    double t =
        new TDistribution(null, degreesOfFreedom)
            .inverseCumulativeProbability((1 + ConfidenceInterval.USUAL_LEVEL) / 2);
    ChiSquaredDistribution chi = new ChiSquaredDistribution(null, degreesOfFreedom);
    double upper = chi.inverseCumulativeProbability(1 - 1e-10);
    GaussIntegrator quadrature = new GaussIntegratorFactory().legendre(POINTS, 0, Math.sqrt(upper));
    // Over the root r of χ², whose density is finite at 0 also for one degree of freedom.
    return quadrature.integrate(
        r -> {
          double s = r / Math.sqrt(degreesOfFreedom);
          double outside =
              NORMAL.cumulativeProbability(shift - t * s)
                  + NORMAL.cumulativeProbability(-shift - t * s);
          return 2 * r * chi.density(r * r) * outside;
        });
  }

  /** Returns the shift that has such a power. */
  static double shiftFor(double power, int degreesOfFreedom) {
    double most = 1;
    while (beyond(most, degreesOfFreedom) < power) {
      most *= 2;
    }
    return new BrentSolver(1e-9)
        .solve(1000, shift -> beyond(shift, degreesOfFreedom) - power, 0, most);
  }
}
