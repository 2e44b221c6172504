package org.isopach.analysis.change;

import java.util.Objects;

/** How sure a change is: an interval, or why there is none. */
public sealed interface ChangeUncertainty {
  /** Nobody asked. */
  NotGiven NOT_JUDGED = new NotGiven("the noise of repeated scans was not looked for");

  /**
   * An interval.
   *
   * @param sdUm standard deviation of the change's error in µm
   * @param degreesOfFreedom of Student's distribution; may be infinite
   * @param lowUm lower end of the 95 % confidence interval in µm
   * @param highUm upper end
   * @param p probability of a change at least as large without any, both signs
   * @param pAdjusted the same after Benjamini and Hochberg over the layer's sectors
   * @param terms what the standard deviation is made of
   * @param noise the noise it rests on
   */
  record Given(
      double sdUm,
      double degreesOfFreedom,
      double lowUm,
      double highUm,
      double p,
      double pAdjusted,
      Terms terms,
      SectorNoise noise)
      implements ChangeUncertainty {
    /** The share of false discoveries that is put up with. */
    public static final double LEVEL = 0.05;

    public Given {
      Objects.requireNonNull(terms, "terms");
      Objects.requireNonNull(noise, "noise");
      if (!(lowUm <= highUm) || !(p >= 0 && p <= 1) || !(pAdjusted >= p)) {
        throw new IllegalArgumentException(
            "no interval: " + lowUm + " to " + highUm + ", p " + p + ", adjusted " + pAdjusted);
      }
    }

    /** Returns whether the change is beyond noise, all sectors of the layer considered. */
    public boolean beyondNoise() {
      return pAdjusted <= LEVEL;
    }

    Given adjusted(double value) {
      double adjusted = Math.max(p, value);
      return new Given(sdUm, degreesOfFreedom, lowUm, highUm, p, adjusted, terms, noise);
    }
  }

  /**
   * No interval.
   *
   * @param reason why, in plain words
   */
  record NotGiven(String reason) implements ChangeUncertainty {
    public NotGiven {
      Objects.requireNonNull(reason, "reason");
    }
  }

  /**
   * The variances a change's error is made of, in µm².
   *
   * @param repeats of two scans of an unchanged eye
   * @param doubt what is added because the lines are less sure than in the repeats
   * @param place what is added for the place of the two scans on one another
   * @param coverage what is added for cells without a value
   */
  record Terms(double repeats, double doubt, double place, double coverage) {
    double sum() {
      return repeats + doubt + place + coverage;
    }
  }
}
