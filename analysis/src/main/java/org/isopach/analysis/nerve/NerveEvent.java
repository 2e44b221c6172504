package org.isopach.analysis.nerve;

import java.util.Locale;
import java.util.Objects;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.stat.ConfidenceInterval;

/**
 * What the change of one mean between two visits says against test–retest noise, or why that is not
 * known. About structure only.
 */
public sealed interface NerveEvent {
  /** Returns the place, for example {@code global} or the name of an arc. */
  String place();

  /** Returns what it says. */
  EventVerdict verdict();

  /** Returns one sentence without a full stop. */
  String words();

  /**
   * A change held against noise.
   *
   * @param place the place
   * @param baselineUm mean at the baseline in µm
   * @param followUpUm mean at the follow-up in µm
   * @param interval 95 % interval of the change; its half-width is the limit of {@link #limitUm}
   * @param p probability of a change at least as large without any, both signs
   * @param pAdjusted the same after Benjamini and Hochberg over the places judged together
   * @param noise the noise it rests on
   */
  record Judged(
      String place,
      double baselineUm,
      double followUpUm,
      ConfidenceInterval interval,
      double p,
      double pAdjusted,
      SectorNoise noise)
      implements NerveEvent {
    /** Share of false discoveries put up with. */
    public static final double LEVEL = 0.05;

    public Judged {
      Objects.requireNonNull(place, "place");
      Objects.requireNonNull(interval, "interval");
      Objects.requireNonNull(noise, "noise");
      if (!Double.isFinite(baselineUm) || !Double.isFinite(followUpUm) || !(pAdjusted >= p)) {
        throw new IllegalArgumentException(place + ": two means and two p-values are needed");
      }
    }

    /** Returns follow-up less baseline in µm, negative where it grew thinner. */
    public double changeUm() {
      return followUpUm - baselineUm;
    }

    /** Returns the change that 95 % of pairs of unchanged eyes stay within, in µm. */
    public double limitUm() {
      return (interval.upper() - interval.lower()) / 2;
    }

    @Override
    public EventVerdict verdict() {
      if (pAdjusted > LEVEL) {
        return EventVerdict.WITHIN;
      }
      return changeUm() < 0 ? EventVerdict.THINNER : EventVerdict.THICKER;
    }

    @Override
    public String words() {
      String figures =
          String.format(
              Locale.ROOT,
              "%+.1f µm, 95 %% CI %+.1f to %+.1f; limit %.1f µm, %s",
              plain(changeUm()),
              plain(interval.lower()),
              plain(interval.upper()),
              limitUm(),
              noise.source() == NoiseSource.PUBLISHED
                  ? "published test–retest"
                  : "test–retest of repeats");
      boolean alone = verdict() == EventVerdict.WITHIN && p <= LEVEL;
      return (alone
              ? "beyond test–retest taken by itself, not once the number of places is allowed for"
              : verdict().words())
          + " ("
          + figures
          + ")";
    }

    private static double plain(double um) {
      return Math.abs(um) < 0.05 ? 0.0 : um;
    }
  }

  /**
   * A change that cannot be held against noise.
   *
   * @param place the place
   * @param reason why, in plain words
   */
  record Unknown(String place, String reason) implements NerveEvent {
    public Unknown {
      Objects.requireNonNull(place, "place");
      Objects.requireNonNull(reason, "reason");
    }

    @Override
    public EventVerdict verdict() {
      return EventVerdict.UNKNOWN;
    }

    @Override
    public String words() {
      return verdict().words() + ": " + reason;
    }
  }
}
