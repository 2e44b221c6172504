package org.isopach.analysis.normal;

import java.util.Locale;
import org.isopach.analysis.stat.ConfidenceInterval;

/** A percentile in words, by the cut points 1, 5, 95 and 99. */
final class NormalWords {
  private static final double[] CUTS = {1, 5, 95, 99};

  private NormalWords() {}

  static String of(double percentile, ConfidenceInterval interval, ReferenceRow row) {
    String figures =
        String.format(
            Locale.ROOT,
            "(95 %% interval %s to %s)",
            number(interval.lower()),
            number(interval.upper()));
    String at =
        percentile < CUTS[0] || percentile > CUTS[3]
            ? " " + figures
            : ", at the " + ordinal(percentile) + " percentile " + figures;
    return band(percentile)
        + " of this reference group"
        + at
        + straddle(percentile, interval)
        + ": "
        + row.words();
  }

  private static String band(double percentile) {
    if (percentile < CUTS[0]) {
      return "below the 1st percentile";
    }
    if (percentile > CUTS[3]) {
      return "above the 99th percentile";
    }
    int i = percentile < CUTS[1] ? 0 : percentile <= CUTS[2] ? 1 : 2;
    return "between the " + ordinal(CUTS[i]) + " and the " + ordinal(CUTS[i + 1]) + " percentile";
  }

  /** Says which cut points of other bands the interval reaches. */
  private static String straddle(double percentile, ConfidenceInterval interval) {
    String words = "";
    for (double cut : CUTS) {
      if (cut < percentile && interval.lower() < cut) {
        words = "; the interval reaches below the " + ordinal(cut);
        break;
      }
    }
    for (int i = CUTS.length - 1; i >= 0; i--) {
      if (CUTS[i] > percentile && interval.upper() > CUTS[i]) {
        String reaches = "above the " + ordinal(CUTS[i]);
        return words.isEmpty() ? "; the interval reaches " + reaches : words + " and " + reaches;
      }
    }
    return words;
  }

  /** Below 10 and above 90 with a decimal, so that 0.3 and 99.7 do not become 0 and 100. */
  private static String number(double percentile) {
    if (percentile < 0.05 || percentile >= 99.95) {
      return percentile < 50 ? "below 0.1" : "above 99.9";
    }
    return String.format(
        Locale.ROOT, percentile < 10 || percentile > 90 ? "%.1f" : "%.0f", percentile);
  }

  private static String ordinal(double percentile) {
    long whole = Math.max(1, Math.min(99, Math.round(percentile)));
    boolean teen = whole / 10 == 1;
    long last = whole % 10;
    String ending =
        teen || last > 3 || last == 0 ? "th" : last == 1 ? "st" : last == 2 ? "nd" : "rd";
    return whole + ending;
  }
}
