package org.isopach.analysis.nerve;

import java.util.Arrays;
import java.util.Objects;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.isopach.analysis.stat.FalseDiscovery;

/**
 * The change of a profile sample by sample, each held against noise, all samples together by
 * Benjamini and Hochberg. Samples are equally spaced round the closed circle; NaN where either
 * visit has no value. Immutable.
 */
public final class ProfileChange {
  /** Share of false discoveries put up with. */
  public static final double LEVEL = 0.05;

  private final double[] changeUm;
  private final double[] pAdjusted;
  private final ProfileNoise noise;

  private ProfileChange(double[] changeUm, double[] pAdjusted, ProfileNoise noise) {
    this.changeUm = changeUm;
    this.pAdjusted = pAdjusted;
    this.noise = noise;
  }

  /**
   * Returns the change between two profiles.
   *
   * @param baselineUm baseline in µm, NaN for none
   * @param followUpUm follow-up at the same angles
   * @param noise of one profile
   * @throws IllegalArgumentException when the lengths differ
   */
  public static ProfileChange of(double[] baselineUm, double[] followUpUm, ProfileNoise noise) {
    Objects.requireNonNull(noise, "noise");
    if (baselineUm.length != followUpUm.length) {
      throw new IllegalArgumentException(
          "profiles of one length: " + baselineUm.length + ", " + followUpUm.length);
    }
    double sd = noise.ofDifference().sampleSdUm();
    NormalDistribution normal = new NormalDistribution(null, 0, 1);
    double[] change = new double[baselineUm.length];
    double[] p = new double[change.length];
    for (int i = 0; i < change.length; i++) {
      change[i] = followUpUm[i] - baselineUm[i];
      p[i] =
          Double.isNaN(change[i])
              ? Double.NaN
              : Math.min(1, 2 * normal.cumulativeProbability(-Math.abs(change[i]) / sd));
    }
    return new ProfileChange(change, adjusted(p), noise);
  }

  /** Returns adjusted p-values; NaN stays NaN and does not count. */
  static double[] adjusted(double[] p) {
    int[] at = IntStream.range(0, p.length).filter(i -> !Double.isNaN(p[i])).toArray();
    double[] tested = new double[at.length];
    for (int k = 0; k < at.length; k++) {
      tested[k] = p[at[k]];
    }
    double[] found = FalseDiscovery.benjaminiHochberg(tested);
    double[] all = new double[p.length];
    Arrays.fill(all, Double.NaN);
    for (int k = 0; k < at.length; k++) {
      all[at[k]] = found[k];
    }
    return all;
  }

  /** Returns the number of samples round the circle. */
  public int samples() {
    return changeUm.length;
  }

  /** Returns follow-up less baseline of a sample in µm; NaN where either has none. */
  public double changeUm(int sample) {
    return changeUm[sample];
  }

  /** Returns all changes, a copy. */
  public double[] changesUm() {
    return changeUm.clone();
  }

  /** Returns the sample's p-value, adjusted over the profile; NaN where there is no change. */
  public double pAdjusted(int sample) {
    return pAdjusted[sample];
  }

  /** Returns what the change of a sample says. */
  public EventVerdict verdict(int sample) {
    if (Double.isNaN(changeUm[sample])) {
      return EventVerdict.UNKNOWN;
    }
    if (pAdjusted[sample] > LEVEL) {
      return EventVerdict.WITHIN;
    }
    return changeUm[sample] < 0 ? EventVerdict.THINNER : EventVerdict.THICKER;
  }

  /** Returns the share of the circle with a change that is thinner beyond noise, 0 to 1. */
  public double thinnerShare() {
    int thinner = 0;
    for (int i = 0; i < changeUm.length; i++) {
      thinner += verdict(i) == EventVerdict.THINNER ? 1 : 0;
    }
    return (double) thinner / changeUm.length;
  }

  /** Returns the noise of one profile. */
  public ProfileNoise noise() {
    return noise;
  }
}
