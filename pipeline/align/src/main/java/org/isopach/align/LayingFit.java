package org.isopach.align;

/**
 * Refines a laying by iterated linear least squares (Gauss-Newton) on the difference of the two
 * shadow pictures.
 *
 * <p>Unknown are the pose and, when frames may move, a shift of each frame of both scans. Only what
 * the two scans have in common can be told; the prior shares it out between them, which does not
 * matter to where a follow-up A-scan lies on the baseline. Neighbouring samples share speckle:
 * {@value #SAMPLES_PER_FACT} of them weigh as one.
 */
final class LayingFit {
  private static final double SAMPLES_PER_FACT = 4;
  private static final double ROBUST = 1.5;
  private static final int LEAST_USED = 100;

  private final Laying laying;
  private final ShadowSamples samples;
  private final boolean moving;
  private final NormalEquations equations;
  private final Slopes slopes = new Slopes();
  private final Correlation correlation = new Correlation();
  private double variance = 1;

  LayingFit(Laying start, ShadowSamples samples, boolean moving) {
    this.laying = start.copy();
    this.samples = samples;
    this.moving = moving;
    this.equations = new NormalEquations(laying.unknowns(moving));
  }

  /** Runs so many steps on one picture of the baseline; stops when hardly anything overlaps. */
  LayingFit run(ShadowMap baseline, int steps) {
    gather(baseline);
    for (int i = 0; i < steps && usable(); i++) {
      if (moving) {
        laying.addPrior(equations);
      }
      laying.take(equations.solve(), moving);
      gather(baseline);
    }
    return this;
  }

  private void gather(ShadowMap baseline) {
    equations.clear();
    correlation.clear();
    double squares = 0;
    double weights = 0;
    double limit = ROBUST * Math.sqrt(variance);
    for (int i = 0; i < samples.count; i++) {
      double v = samples.value[i];
      if (Double.isNaN(v)
          || !laying.place(samples.x[i], samples.y[i], samples.rank[i])
          || !baseline.read(laying.xMm, laying.yMm)) {
        continue;
      }
      correlation.add(baseline.value, v);
      double residual = baseline.value - v;
      double weight = Math.min(1, limit / Math.max(limit, Math.abs(residual)));
      squares += weight * residual * residual;
      weights += weight;
      laying.slopes(baseline.slopeX, baseline.slopeY, moving, slopes);
      equations.add(slopes, residual, weight);
    }
    variance = Math.max(1e-6, squares / Math.max(1e-9, weights));
    equations.multiply(1 / (variance * SAMPLES_PER_FACT));
  }

  boolean usable() {
    return correlation.count() >= LEAST_USED && !Double.isNaN(correlation.value());
  }

  Laying laying() {
    return laying;
  }

  /** Returns the correlation of the pictures where both have values, NaN when nowhere. */
  double correlation() {
    return correlation.value();
  }

  /** Returns the share of the follow-up's samples that lie on the baseline. */
  double sharedFraction() {
    return samples.count == 0 ? 0 : (double) correlation.count() / samples.count;
  }

  /**
   * Returns the root mean square standard deviation in mm, each way, of where A-scans lie on the
   * baseline, from the curvature of what was minimised; over some of the samples within a circle.
   * NaN when none lies there.
   *
   * @param radiusMm about the pose's {@code from}
   */
  double placeSdMm(double radiusMm, int wanted) {
    if (moving) {
      laying.addPrior(equations);
    }
    double[][] covariance = equations.covariance();
    double sum = 0;
    int count = 0;
    Pose pose = laying.pose();
    int stride = Math.max(1, samples.count / wanted);
    for (int i = 0; i < samples.count; i += stride) {
      double dx = samples.x[i] - pose.from().xMm();
      double dy = samples.y[i] - pose.from().yMm();
      if (Math.hypot(dx, dy) <= radiusMm
          && laying.place(samples.x[i], samples.y[i], samples.rank[i])) {
        laying.slopes(1, 0, moving, slopes);
        sum += slopes.variance(covariance);
        laying.slopes(0, 1, moving, slopes);
        sum += slopes.variance(covariance);
        count += 2;
      }
    }
    return count == 0 ? Double.NaN : Math.sqrt(sum / count);
  }
}
