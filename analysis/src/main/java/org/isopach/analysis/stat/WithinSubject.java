package org.isopach.analysis.stat;

import java.util.List;
import java.util.OptionalDouble;

/**
 * The spread of repeats of one subject about that subject's mean, pooled over subjects.
 *
 * <p>Sw² is the within-subject mean square of a one-way analysis of variance, the sum over all
 * subjects of squared deviations from the subject's mean, by Σ(repeats − 1) degrees of freedom
 * (Bland &amp; Altman, BMJ 1996;313:744, from memory). Subjects may have unequal numbers of
 * repeats. It is one figure for all: where the spread grows with the mean it holds for no subject
 * in particular.
 *
 * @param subjects number of subjects, at least 1
 * @param values number of values, at least two for each subject
 * @param mean mean of the subjects' means, each subject counting once
 * @param sd Sw in the unit of the values; 0 when each subject's repeats are equal
 * @param sdInterval interval of Sw by chi-square: √(df Sw² / χ²), for normally distributed errors;
 *     both ends 0 when Sw is
 */
public record WithinSubject(
    int subjects, int values, double mean, double sd, ConfidenceInterval sdInterval) {
  /**
   * What Sw is multiplied by to give the coefficient of repeatability, 1.96 √2: two repeats of one
   * subject differ by less in 95 % of pairs.
   */
  public static final double REPEATABILITY_FACTOR = 1.96 * Math.sqrt(2);

  /**
   * Returns the pooled spread.
   *
   * @param repeats one array for each subject, with two or more finite values
   * @param level of the interval, between 0 and 1
   * @throws CannotEstimateException when there is no subject
   * @throws IllegalArgumentException when a subject has fewer than two values, or a value is not
   *     finite
   */
  public static WithinSubject of(List<double[]> repeats, double level) {
    ConfidenceInterval.requireLevel(level);
    if (repeats.isEmpty()) {
      throw CannotEstimateException.tooFew("subject with two repeats", 1, 0);
    }
    int values = 0;
    double squares = 0;
    double[] means = new double[repeats.size()];
    for (int i = 0; i < means.length; i++) {
      double[] own = repeats.get(i);
      if (own.length < 2) {
        throw new IllegalArgumentException("subject " + i + " has " + own.length + " values");
      }
      Values.requireFinite(own, "subject " + i + ", value");
      values += own.length;
      squares += Values.sumOfSquares(own);
      means[i] = Values.mean(own);
    }
    int df = values - means.length;
    ConfidenceInterval interval =
        new ConfidenceInterval(
            Math.sqrt(squares / Quantiles.chiSquare((1 + level) / 2, df)),
            Math.sqrt(squares / Quantiles.chiSquare((1 - level) / 2, df)),
            level);
    return new WithinSubject(
        means.length, values, Values.mean(means), Math.sqrt(squares / df), interval);
  }

  /** Returns the degrees of freedom, values less subjects. */
  public int degreesOfFreedom() {
    return values - subjects;
  }

  /** Returns the coefficient of repeatability, 1.96 √2 Sw, in the unit of the values. */
  public double coefficientOfRepeatability() {
    return REPEATABILITY_FACTOR * sd;
  }

  /** Returns the interval of the coefficient of repeatability. */
  public ConfidenceInterval coefficientOfRepeatabilityInterval() {
    return sdInterval.times(REPEATABILITY_FACTOR);
  }

  /** Returns 100 Sw / mean; empty unless the mean is positive. */
  public OptionalDouble coefficientOfVariationPercent() {
    return mean > 0 ? OptionalDouble.of(100 * sd / mean) : OptionalDouble.empty();
  }
}
