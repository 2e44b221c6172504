package org.isopach.analysis.stat;

import org.apache.commons.math3.stat.descriptive.moment.Mean;
import org.apache.commons.math3.stat.descriptive.moment.Variance;

/**
 * Mean, spread and range of weighted values.
 *
 * <p>The mean is {@code sum(w x) / sum(w)}; the standard deviation is that of a population, {@code
 * sqrt(sum(w (x - mean)^2) / sum(w))}. Both are computed in two passes.
 *
 * @param weight sum of the weights, positive
 * @param mean weighted mean
 * @param populationSd weighted population standard deviation; 0 for a single value
 * @param min smallest value, whatever its weight
 * @param max largest value, whatever its weight
 */
public record WeightedSummary(
    double weight, double mean, double populationSd, double min, double max) {

  /**
   * Returns the summary of the first {@code count} values.
   *
   * @param values finite values
   * @param weights not negative, at least one positive; as many as values
   * @param count how many take part, at least 1
   * @throws IllegalArgumentException when a value is not finite, there are too few, or the weights
   *     do not fit
   */
  public static WeightedSummary of(double[] values, double[] weights, int count) {
    if (count < 1 || count > values.length || count > weights.length) {
      throw new IllegalArgumentException(
          "count must be from 1 to the number of values and weights, was " + count);
    }
    double weight = 0;
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < count; i++) {
      if (!Double.isFinite(values[i])) {
        throw new IllegalArgumentException("value " + i + " is not finite: " + values[i]);
      }
      weight += weights[i];
      min = Math.min(min, values[i]);
      max = Math.max(max, values[i]);
    }
    double mean = new Mean().evaluate(values, weights, 0, count);
    double variance = new Variance(false).evaluate(values, weights, mean, 0, count);
    return new WeightedSummary(weight, mean, Math.sqrt(Math.max(0, variance)), min, max);
  }
}
