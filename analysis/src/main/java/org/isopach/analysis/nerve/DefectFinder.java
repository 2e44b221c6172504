package org.isopach.analysis.nerve;

import java.util.List;
import java.util.Objects;

/**
 * Finds parts of a difference profile that are thinner, beyond noise, than the rest of it. The
 * median is taken from the difference (a change all round is the global mean's to tell), what is
 * left is averaged over {@link #SMOOTHING_DEGREES}, divided by its standard deviation, and held
 * against the least value that noise alone has anywhere on the circle in {@link #LEVEL} of
 * profiles, so that at most so many unchanged profiles show any defect. Definition:
 * docs/measurements.md, "Nerve fibre progression".
 */
public final class DefectFinder {
  /** Share of unchanged profiles in which something is found in vain. */
  public static final double LEVEL = 0.05;

  /** Width of the running mean: half of a narrow wedge of 15 degrees. Ours. */
  public static final double SMOOTHING_DEGREES = 7.5;

  private final CircleSmoother smoother;
  private final DeepestOfNoise deepest;

  /**
   * Prepares a search.
   *
   * @param noise of the differences that will be given: of two visits {@link
   *     ProfileNoise#ofDifference}; its shared part does not matter here
   * @param samples number of samples round the circle, at least 72
   */
  public DefectFinder(ProfileNoise noise, int samples) {
    Objects.requireNonNull(noise, "noise");
    double length = noise.correlationDegrees();
    // Of the noise only the length is known: the greater of two shapes of that length, the smooth
    // and the rough one, makes the standard deviation of a mean no smaller than either.
    this.smoother =
        new CircleSmoother(
            samples,
            SMOOTHING_DEGREES,
            noise.localSdUm(),
            degrees ->
                Math.exp(-Math.min(degrees / length, (degrees / length) * (degrees / length))));
    this.deepest = DeepestOfNoise.of(length, samples, SMOOTHING_DEGREES);
  }

  /**
   * Returns the defects, in the order of the angles at which they begin.
   *
   * @param differenceUm follow-up less baseline, or profile less expected, in µm, equally spaced
   *     round the closed circle from angle 0; NaN for none
   * @throws IllegalArgumentException when the number of samples is not the one prepared for
   * @throws org.isopach.analysis.stat.CannotEstimateException when less than half of the circle has
   *     a value
   */
  public List<ProfileDefect> find(double[] differenceUm) {
    CircleSmoother.Smooth smooth = smoother.smooth(differenceUm);
    return CircleRuns.below(smooth.scores(), -thresholdSd(), smoother.window()).stream()
        .map(run -> defect(run, smooth))
        .toList();
  }

  /** Returns how many standard deviations of the running mean count as beyond noise. */
  public double thresholdSd() {
    return deepest.quantile(LEVEL);
  }

  private ProfileDefect defect(CircleRuns.Run run, CircleSmoother.Smooth smooth) {
    int n = smoother.samples();
    double step = 360.0 / n;
    double sum = 0;
    int count = 0;
    double least = 0;
    double score = 0;
    for (int k = 0; k < run.length(); k++) {
      int i = (run.start() + k) % n;
      if (!Double.isNaN(smooth.centredUm()[i])) {
        sum -= smooth.centredUm()[i];
        count++;
      }
      // Comparisons with NaN are false.
      least = smooth.meansUm()[i] < least ? smooth.meansUm()[i] : least;
      score = smooth.scores()[i] < score ? smooth.scores()[i] : score;
    }
    // A sample stands for half a step on either side of its angle.
    double from = run.length() == n ? 0 : ((run.start() - 0.5) * step + 360) % 360;
    return new ProfileDefect(
        from, run.length() * step, sum / count, -least, sum * step, deepest.p(-score));
  }
}
