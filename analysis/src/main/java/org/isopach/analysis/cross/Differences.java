package org.isopach.analysis.cross;

import java.util.Arrays;
import java.util.Objects;
import java.util.Optional;

/**
 * How two sets of depths or thicknesses at the same places differ, theirs minus ours. Places are
 * neighbours of one another: these numbers describe one pair of maps and are no confidence limits.
 *
 * @param pairs number of places where both have a value
 * @param onlyTheirs places where only they have one
 * @param onlyOurs places where only we have one
 * @param spread the differences; empty without a pair
 */
public record Differences(int pairs, int onlyTheirs, int onlyOurs, Optional<Spread> spread) {
  private static final double SHARE = 0.95;

  /**
   * What the differences are like, in µm.
   *
   * @param meanTheirs mean of their values at the places that both have
   * @param meanOurs mean of ours there
   * @param mean mean difference
   * @param sd standard deviation of the differences, n − 1; 0 for a single one
   * @param meanAbsolute mean of the absolute differences
   * @param percentile95 the smallest absolute difference that at least 95 % do not exceed
   */
  public record Spread(
      double meanTheirs,
      double meanOurs,
      double mean,
      double sd,
      double meanAbsolute,
      double percentile95) {
    private static final double LIMIT = 1.96;

    /** Returns mean − 1.96 SD. */
    public double lowerLimit() {
      return mean - LIMIT * sd;
    }

    /** Returns mean + 1.96 SD. */
    public double upperLimit() {
      return mean + LIMIT * sd;
    }
  }

  public Differences {
    Objects.requireNonNull(spread, "spread");
  }

  /** Returns the share of our places where they have a value too, from 0 to 1; 0 without ours. */
  public double coveredFraction() {
    int ours = pairs + onlyOurs;
    return ours == 0 ? 0 : (double) pairs / ours;
  }

  /** Collects pairs in µm, place by place; NaN for none. Not safe for several threads. */
  public static final class Collector {
    private double[] differences = new double[1024];
    private int pairs;
    private int onlyTheirs;
    private int onlyOurs;
    private double theirSum;
    private double ourSum;

    /** Takes one place. */
    public void add(double theirs, double ours) {
      if (Double.isNaN(theirs) || Double.isNaN(ours)) {
        onlyTheirs += Double.isNaN(theirs) ? 0 : 1;
        onlyOurs += Double.isNaN(ours) ? 0 : 1;
        return;
      }
      if (pairs == differences.length) {
        differences = Arrays.copyOf(differences, 2 * pairs);
      }
      differences[pairs++] = theirs - ours;
      theirSum += theirs;
      ourSum += ours;
    }

    /** Returns what was collected. */
    public Differences result() {
      return new Differences(
          pairs, onlyTheirs, onlyOurs, pairs == 0 ? Optional.empty() : Optional.of(spread()));
    }

    private Spread spread() {
      double sum = 0;
      double absolute = 0;
      for (int i = 0; i < pairs; i++) {
        sum += differences[i];
        absolute += Math.abs(differences[i]);
      }
      double mean = sum / pairs;
      double squares = 0;
      double[] sizes = new double[pairs];
      for (int i = 0; i < pairs; i++) {
        squares += (differences[i] - mean) * (differences[i] - mean);
        sizes[i] = Math.abs(differences[i]);
      }
      Arrays.sort(sizes);
      int rank = (int) Math.ceil(SHARE * pairs - 1e-9);
      return new Spread(
          theirSum / pairs,
          ourSum / pairs,
          mean,
          pairs == 1 ? 0 : Math.sqrt(squares / (pairs - 1)),
          absolute / pairs,
          sizes[Math.max(rank, 1) - 1]);
    }
  }
}
