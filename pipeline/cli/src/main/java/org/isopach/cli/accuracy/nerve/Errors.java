package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.isopach.cli.accuracy.Bootstrap;
import org.isopach.cli.page.Markdown;

/** Found less true values, of one unit. A missing one is NaN; it is counted and left out. */
final class Errors {
  private final List<Double> values = new ArrayList<>();
  private final int missing;

  Errors(Collection<Double> signed) {
    for (double value : signed) {
      if (!Double.isNaN(value)) {
        values.add(value);
      }
    }
    this.missing = signed.size() - values.size();
  }

  int count() {
    return values.size();
  }

  int missing() {
    return missing;
  }

  /** Returns the mean of the signed errors; NaN without any. */
  double bias() {
    return values.stream().mapToDouble(Double::doubleValue).average().orElse(Double.NaN);
  }

  /** Returns the mean absolute error; NaN without any. */
  double meanAbsolute() {
    return values.stream().mapToDouble(Math::abs).average().orElse(Double.NaN);
  }

  /** Returns the standard deviation of the signed errors; NaN of fewer than two. */
  double sd() {
    double bias = bias();
    double squares = values.stream().mapToDouble(v -> (v - bias) * (v - bias)).sum();
    return values.size() < 2 ? Double.NaN : Math.sqrt(squares / (values.size() - 1));
  }

  /** Returns the 95 % interval of the mean absolute error, by bootstrap over the single errors. */
  Bootstrap.Interval interval() {
    return values.isEmpty()
        ? new Bootstrap.Interval(Double.NaN, Double.NaN)
        : Bootstrap.interval(
            values, some -> some.stream().mapToDouble(Math::abs).average().orElse(Double.NaN));
  }

  /** Returns the greatest absolute error; NaN without any. */
  double worst() {
    return values.stream().mapToDouble(Math::abs).max().orElse(Double.NaN);
  }

  /** Returns how many are at most a limit in size. */
  long within(double limit) {
    return values.stream().filter(value -> Math.abs(value) <= limit).count();
  }

  /** Returns how many of how many are within a limit, missing ones not counted. */
  String withinWords(double limit) {
    String share = Markdown.percent((double) within(limit) / count(), 0);
    return within(limit) + " of " + count() + (count() > 0 ? " (" + share + ")" : "");
  }
}
