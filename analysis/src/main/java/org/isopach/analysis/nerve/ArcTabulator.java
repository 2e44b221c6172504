package org.isopach.analysis.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.isopach.analysis.stat.WeightedSummary;

/**
 * Measures profiles in the arcs of a scheme.
 *
 * <p>A sample stands for the angle half way to either neighbour and counts in an arc with the
 * degrees of it that lie there. The whole circle is the mean of the arcs, each weighted with its
 * width, and is given only when every arc is. All of docs/measurements.md, "Nerve fibre profile".
 */
public final class ArcTabulator {
  /** The share of an arc that must have values; ours, that of the sectors of grids. */
  public static final double DEFAULT_MINIMUM_COVERAGE = 0.90;

  private ArcTabulator() {}

  /** Returns the arcs of a nerve fibre profile by the usual coverage. */
  public static ArcTable tabulate(CircleProfile profile, ArcScheme scheme) {
    return tabulate(profile, scheme, DEFAULT_MINIMUM_COVERAGE);
  }

  /**
   * Returns the arcs of a nerve fibre profile.
   *
   * @param minimumCoverage share of an arc, above 0 and up to 1, that must have values
   */
  public static ArcTable tabulate(CircleProfile profile, ArcScheme scheme, double minimumCoverage) {
    List<ArcResult> arcs = arcs(profile, scheme, minimumCoverage);
    return new ArcTable(profile, scheme, arcs, whole(arcs));
  }

  /** Returns the arcs of the rim by the usual coverage. */
  public static RimTable tabulate(RimProfile rim, ArcScheme scheme) {
    List<ArcResult> arcs = arcs(rim, scheme, DEFAULT_MINIMUM_COVERAGE);
    return new RimTable(rim, scheme, arcs, whole(arcs));
  }

  private static List<ArcResult> arcs(
      AngularProfile profile, ArcScheme scheme, double minimumCoverage) {
    if (!(minimumCoverage > 0 && minimumCoverage <= 1)) {
      throw new IllegalArgumentException(
          "minimumCoverage must be above 0 and at most 1, was " + minimumCoverage);
    }
    List<ArcResult> results = new ArrayList<>();
    for (Arc arc : scheme.arcs()) {
      results.add(measure(profile, arc, minimumCoverage));
    }
    return results;
  }

  private static ArcResult measure(AngularProfile profile, Arc arc, double minimumCoverage) {
    double[] values = new double[profile.samples()];
    double[] weights = new double[profile.samples()];
    double all = 0;
    double covered = 0;
    int found = 0;
    for (int i = 0; i < profile.samples(); i++) {
      double common = arc.commonDegrees(profile.angleDegrees(i), profile.stepDegrees());
      all += common;
      if (common > 0 && !Double.isNaN(profile.valueUm(i))) {
        values[found] = profile.valueUm(i);
        weights[found++] = common;
        covered += common;
      }
    }
    double fraction = Math.min(1, covered / all);
    if (found == 0 || fraction < minimumCoverage) {
      return refuse(arc, fraction, minimumCoverage);
    }
    WeightedSummary summary = WeightedSummary.of(values, weights, found);
    return new ArcMean(
        arc.name(),
        summary.mean(),
        summary.populationSd(),
        summary.min(),
        summary.max(),
        arc.widthDegrees(),
        fraction);
  }

  private static ArcMissing refuse(Arc arc, double fraction, double minimumCoverage) {
    boolean empty = fraction == 0;
    String detail =
        empty
            ? "no value anywhere in the arc"
            : String.format(
                Locale.ROOT,
                "%.1f %% of the arc has a value, %.1f %% are needed",
                100 * fraction,
                100 * minimumCoverage);
    return new ArcMissing(
        arc.name(),
        empty ? ArcMissing.Reason.NO_VALUE : ArcMissing.Reason.LOW_COVERAGE,
        arc.widthDegrees(),
        fraction,
        detail);
  }

  private static ArcResult whole(List<ArcResult> arcs) {
    double covered = 0;
    double moment = 0;
    int missing = 0;
    for (ArcResult result : arcs) {
      covered += result.widthDegrees() * result.coveredFraction();
      if (result instanceof ArcMean mean) {
        moment += mean.widthDegrees() * mean.meanUm();
      } else {
        missing++;
      }
    }
    double fraction = Math.min(1, covered / DiscAngle.FULL_TURN);
    return missing == 0
        ? spread(arcs, moment / DiscAngle.FULL_TURN, fraction)
        : new ArcMissing(
            ArcScheme.GLOBAL,
            ArcMissing.Reason.INCOMPLETE_CIRCLE,
            DiscAngle.FULL_TURN,
            fraction,
            missing + " of " + arcs.size() + " arcs could not be measured");
  }

  private static ArcMean spread(List<ArcResult> arcs, double meanUm, double fraction) {
    double squares = 0;
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    for (ArcResult result : arcs) {
      ArcMean mean = (ArcMean) result;
      double shift = mean.meanUm() - meanUm;
      squares += mean.widthDegrees() * (mean.sdUm() * mean.sdUm() + shift * shift);
      min = Math.min(min, mean.minUm());
      max = Math.max(max, mean.maxUm());
    }
    double sd = Math.sqrt(squares / DiscAngle.FULL_TURN);
    return new ArcMean(ArcScheme.GLOBAL, meanUm, sd, min, max, DiscAngle.FULL_TURN, fraction);
  }
}
