package org.isopach.analysis.change;

import java.util.Locale;
import org.isopach.analysis.change.ChangeUncertainty.Given;
import org.isopach.analysis.change.ChangeUncertainty.NotGiven;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.change.SectorChange.NotMeasurableChange;

/** What a change says, in plain words. */
public final class Verdict {
  private Verdict() {}

  /** Returns one sentence without a full stop, micrometres to one decimal. */
  public static String words(SectorChange change) {
    return change instanceof MeasuredChange measured
        ? words(measured)
        : "not measurable: " + ((NotMeasurableChange) change).detail();
  }

  private static String words(MeasuredChange change) {
    if (change.uncertainty() instanceof Given given) {
      return words(change.changeUm(), given);
    }
    return String.format(
        Locale.ROOT,
        "changed by %+.1f µm; whether that is more than noise is not known: %s",
        zero(change.changeUm()),
        ((NotGiven) change.uncertainty()).reason());
  }

  private static String words(double changeUm, Given given) {
    if (!given.beyondNoise()) {
      return String.format(
          Locale.ROOT,
          "no change beyond measurement noise (%+.1f µm, 95 %% CI %+.1f to %+.1f)",
          zero(changeUm),
          zero(given.lowUm()),
          zero(given.highUm()));
    }
    boolean thicker = changeUm > 0;
    double low = thicker ? given.lowUm() : -given.highUm();
    double high = thicker ? given.highUm() : -given.lowUm();
    return String.format(
        Locale.ROOT,
        "%s by %.1f µm (95 %% CI %.1f to %.1f)",
        thicker ? "thicker" : "thinner",
        Math.abs(changeUm),
        zero(low),
        zero(high));
  }

  /** What rounds to nought has no minus. */
  private static double zero(double um) {
    return Math.abs(um) < 0.05 ? 0.0 : um;
  }
}
