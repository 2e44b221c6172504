package org.isopach.analysis.series;

import java.util.Objects;

/** What a sector of a layer gave at one visit: a number, or why there is none. */
public sealed interface VisitValue {
  /**
   * A number.
   *
   * @param valueUm mean thickness in µm; at the first visit over all the sector, later over the
   *     part that the first visit covers too, at the same spot
   * @param changeUm follow-up less first visit in µm, both over the part that both cover; 0 at the
   *     first visit
   */
  record Given(double valueUm, double changeUm) implements VisitValue {
    public Given {
      if (!Double.isFinite(valueUm) || !Double.isFinite(changeUm)) {
        throw new IllegalArgumentException("not a measurement: " + valueUm + ", " + changeUm);
      }
    }
  }

  /**
   * No number.
   *
   * @param reason why, in plain words
   */
  record Missing(String reason) implements VisitValue {
    public Missing {
      Objects.requireNonNull(reason, "reason");
    }
  }
}
