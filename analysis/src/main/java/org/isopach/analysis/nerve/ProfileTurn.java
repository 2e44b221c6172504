package org.isopach.analysis.nerve;

import java.util.Arrays;

/**
 * How far a later profile is turned against an earlier one. The eye rolls, and the head leans,
 * between two visits; vessels and bundles then lie at other angles of the picture, and sample by
 * sample the two profiles differ by more than any loss.
 *
 * <p>Profiles are equally spaced round the closed circle, in µm, NaN where there is no value.
 */
public final class ProfileTurn {
  /** No turn beyond this many degrees is looked for. */
  public static final double MOST_DEGREES = 10;

  private static final double LEAST_SHARE = 0.5;

  private ProfileTurn() {}

  /**
   * Returns by how many degrees the later profile must be read further on to lie on the earlier
   * one: the turn with the least mean distance of the differences from their median, which a local
   * loss draws aside little; NaN where none within {@link #MOST_DEGREES} fits best, or less than
   * half of the circle has values in both: then angles cannot be compared.
   *
   * @param earlierUm a profile
   * @param laterUm another of the same length
   * @throws IllegalArgumentException when the lengths differ
   */
  public static double degrees(double[] earlierUm, double[] laterUm) {
    int n = earlierUm.length;
    if (laterUm.length != n) {
      throw new IllegalArgumentException("profiles of one length: " + n + ", " + laterUm.length);
    }
    int most = (int) Math.floor(MOST_DEGREES * n / DiscAngle.FULL_TURN);
    double[] spread = new double[2 * most + 1];
    int best = 0;
    for (int k = 0; k < spread.length; k++) {
      spread[k] = spread(earlierUm, laterUm, k - most);
      best = spread[k] < spread[best] ? k : best;
    }
    if (best == 0 || best == spread.length - 1 || !Double.isFinite(spread[best])) {
      return Double.NaN;
    }
    double bend = spread[best - 1] - 2 * spread[best] + spread[best + 1];
    double part = bend > 0 ? (spread[best - 1] - spread[best + 1]) / (2 * bend) : 0;
    return (best - most + part) * DiscAngle.FULL_TURN / n;
  }

  private static double spread(double[] earlier, double[] later, int by) {
    int n = earlier.length;
    double[] differences = new double[n];
    int count = 0;
    for (int i = 0; i < n; i++) {
      double difference = later[Math.floorMod(i + by, n)] - earlier[i];
      if (!Double.isNaN(difference)) {
        differences[count++] = difference;
      }
    }
    if (count < LEAST_SHARE * n) {
      return Double.POSITIVE_INFINITY;
    }
    double[] sorted = Arrays.copyOf(differences, count);
    Arrays.sort(sorted);
    double median = sorted[count / 2];
    double sum = 0;
    for (double difference : sorted) {
      sum += Math.abs(difference - median);
    }
    return sum / count;
  }

  /**
   * Returns a profile read further on by an angle: linear between samples, NaN where either has no
   * value, and all of it where the angle is NaN.
   */
  public static double[] turned(double[] profileUm, double degrees) {
    int n = profileUm.length;
    if (Double.isNaN(degrees)) {
      double[] none = new double[n];
      Arrays.fill(none, Double.NaN);
      return none;
    }
    double by = degrees * n / DiscAngle.FULL_TURN;
    int whole = (int) Math.floor(by);
    double part = by - whole;
    double[] turned = new double[n];
    for (int i = 0; i < n; i++) {
      double first = profileUm[Math.floorMod(i + whole, n)];
      double second = profileUm[Math.floorMod(i + whole + 1, n)];
      turned[i] = part == 0 ? first : (1 - part) * first + part * second;
    }
    return turned;
  }

  /** Returns the later profile turned onto the earlier one. */
  public static double[] onto(double[] earlierUm, double[] laterUm) {
    return turned(laterUm, degrees(earlierUm, laterUm));
  }
}
