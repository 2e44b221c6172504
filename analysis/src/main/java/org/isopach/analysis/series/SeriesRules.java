package org.isopach.analysis.series;

import java.util.List;
import java.util.Optional;

/**
 * What a user may choose about a series.
 *
 * @param loadingDays days from the first treatment that count as loading phase, at least 1
 * @param dryFloorNl volume of fluid in nL up to which an eye counts as dry, at least 0
 * @param ageing expected slopes, the first that fits is taken; empty when none are to be subtracted
 */
public record SeriesRules(int loadingDays, double dryFloorNl, List<AgeSlope> ageing) {
  /** The usual rules, without ageing. */
  public static final SeriesRules USUAL =
      new SeriesRules(TherapyResponse.USUAL_LOADING_DAYS, TimeToDry.USUAL_FLOOR_NL, List.of());

  public SeriesRules {
    ageing = List.copyOf(ageing);
    if (loadingDays < 1 || !(dryFloorNl >= 0) || Double.isInfinite(dryFloorNl)) {
      throw new IllegalArgumentException(
          "loading phase of " + loadingDays + " days, dry up to " + dryFloorNl + " nL");
    }
  }

  /** Returns what is known of ageing in a series, or empty when it is not to be subtracted. */
  public Optional<AgeSlope> ageing(VisitSeries series) {
    return ageing.stream()
        .filter(slope -> slope.isOf(series.layer().name(), series.sector()))
        .findFirst();
  }
}
