package org.isopach.analysis.region;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.grid.NotMeasurable;

/** What is said of a place of which too little was looked at. */
final class Refusals {
  private Refusals() {}

  /** Seeing some is enough to say yes; saying no takes a place that was looked at. */
  static Optional<Boolean> present(boolean seen, boolean enough) {
    return seen || enough ? Optional.of(seen) : Optional.empty();
  }

  static UnmeasuredRegion lowCoverage(
      String place, double areaMm2, double fraction, boolean seen, double minimumCoverage) {
    boolean nothing = fraction == 0;
    return new UnmeasuredRegion(
        place,
        areaMm2,
        fraction,
        present(seen, false),
        OptionalDouble.empty(),
        nothing ? NotMeasurable.Reason.OUTSIDE_SCAN : NotMeasurable.Reason.LOW_COVERAGE,
        nothing
            ? "no part of it was looked at"
            : String.format(
                Locale.ROOT,
                "%.1f %% of it was looked at, %.1f %% are needed",
                100 * fraction,
                100 * minimumCoverage));
  }
}
