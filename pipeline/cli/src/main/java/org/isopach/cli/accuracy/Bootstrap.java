package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.isopach.cli.page.Markdown;

/**
 * Percentile bootstrap over eyes: whole eyes are drawn with replacement, since A-scans and sectors
 * of one eye are not independent (Efron and Tibshirani, An Introduction to the Bootstrap, 1993,
 * chapter 13; from memory).
 */
public final class Bootstrap {
  private static final int DRAWS = 1000;
  private static final long SEED = 20260112;

  /** A 95 % confidence interval; NaN where the figure has no value in some draws. */
  public record Interval(double low, double high) {
    /** Returns both ends with so many decimals, or a dash when there is no interval. */
    public String text(int decimals) {
      if (Double.isNaN(low) || Double.isNaN(high)) {
        return "–";
      }
      return "[" + Markdown.number(low, decimals) + ", " + Markdown.number(high, decimals) + "]";
    }
  }

  private Bootstrap() {}

  /**
   * Returns the interval of a figure over eyes.
   *
   * @param eyes at least one
   * @param statistic the figure of a sample of eyes; NaN where it has none, and such draws come
   *     last
   */
  public static <T> Interval interval(List<T> eyes, ToDoubleFunction<List<T>> statistic) {
    SplittableRandom random = new SplittableRandom(SEED);
    double[] values = new double[DRAWS];
    List<T> sample = new ArrayList<>(eyes);
    for (int i = 0; i < DRAWS; i++) {
      for (int j = 0; j < eyes.size(); j++) {
        sample.set(j, eyes.get(random.nextInt(eyes.size())));
      }
      values[i] = statistic.applyAsDouble(sample);
    }
    Arrays.sort(values);
    return new Interval(values[(int) (0.025 * DRAWS)], values[(int) (0.975 * DRAWS) - 1]);
  }
}
