package org.isopach.analysis.nerve;

import java.util.List;
import java.util.Objects;

/**
 * Finds parts of a difference profile that are thinner beyond noise. The difference is averaged
 * over {@link #SMOOTHING_DEGREES}, divided by its standard deviation, and held against the least
 * value that noise alone has anywhere on the circle in {@link #LEVEL} of profiles, so that at most
 * so many unchanged profiles show any defect. Definition: docs/measurements.md, "Nerve fibre
 * progression".
 */
public final class DefectFinder {
  /** Share of unchanged profiles in which something is found in vain. */
  public static final double LEVEL = 0.05;

  /** Width of the running mean: a third of a narrow wedge of 15 degrees. Ours. */
  public static final double SMOOTHING_DEGREES = 5;

  private final CircleSmoother smoother;
  private final DeepestOfNoise deepest;

  /**
   * Prepares a search.
   *
   * @param noise of the differences that will be given: of two visits {@link
   *     ProfileNoise#ofDifference}
   * @param samples number of samples round the circle, at least 72
   */
  public DefectFinder(ProfileNoise noise, int samples) {
    Objects.requireNonNull(noise, "noise");
    this.smoother = new CircleSmoother(noise, samples, SMOOTHING_DEGREES);
    this.deepest = DeepestOfNoise.of(noise, smoother);
  }

  /**
   * Returns the defects, in the order of the angles at which they begin.
   *
   * @param differenceUm follow-up less baseline, or profile less expected, in µm, equally spaced
   *     round the closed circle from angle 0; NaN for none
   * @throws IllegalArgumentException when the number of samples is not the one prepared for
   */
  public List<ProfileDefect> find(double[] differenceUm) {
    CircleSmoother.Smooth smooth = smoother.smooth(differenceUm);
    return CircleRuns.below(smooth.scores(), -thresholdSd(), smoother.window()).stream()
        .map(run -> defect(run, differenceUm, smooth))
        .toList();
  }

  /** Returns how many standard deviations of the smoothed difference count as beyond noise. */
  public double thresholdSd() {
    return deepest.quantile(LEVEL);
  }

  private ProfileDefect defect(
      CircleRuns.Run run, double[] differenceUm, CircleSmoother.Smooth smooth) {
    int n = differenceUm.length;
    double step = 360.0 / n;
    double sum = 0;
    int count = 0;
    double least = 0;
    double score = 0;
    for (int k = 0; k < run.length(); k++) {
      int i = (run.start() + k) % n;
      if (!Double.isNaN(differenceUm[i])) {
        sum -= differenceUm[i];
        count++;
      }
      if (smooth.scores()[i] < score) {
        score = smooth.scores()[i];
      }
      if (smooth.valuesUm()[i] < least) {
        least = smooth.valuesUm()[i];
      }
    }
    // A sample stands for half a step on either side of its angle.
    double from = run.length() == n ? 0 : ((run.start() - 0.5) * step + 360) % 360;
    return new ProfileDefect(
        from, run.length() * step, sum / count, -least, sum * step, deepest.p(-score));
  }
}
