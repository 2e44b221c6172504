package org.isopach.analysis.series;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Eye;

/**
 * All that is known of one eye's course.
 *
 * @param eye which eye
 * @param series one for each layer and sector of the grid, total last; empty when no visit could be
 *     measured
 * @param fluid one for each visit, the earliest first
 * @param treatments the earliest first; none after the last visit
 */
public record EyeCourse(
    Eye eye, List<VisitSeries> series, List<VisitFluid> fluid, List<TreatmentEvent> treatments) {
  public EyeCourse {
    Objects.requireNonNull(eye, "eye");
    series = List.copyOf(series);
    fluid = List.copyOf(fluid);
    treatments = List.copyOf(treatments);
  }

  /** Returns the day of the first treatment, or empty. */
  public Optional<LocalDate> firstTreatment() {
    return treatments.stream().map(TreatmentEvent::date).findFirst();
  }

  /** Returns what became of a series after the first treatment, or empty without one. */
  public Optional<TherapyResponse> response(VisitSeries one, SeriesRules rules) {
    return firstTreatment().map(day -> TherapyResponse.of(one, day, rules.loadingDays()));
  }

  /** Returns when the eye was found dry after the first treatment, or empty without one. */
  public Optional<TimeToDry> timeToDry(SeriesRules rules) {
    return firstTreatment().map(day -> TimeToDry.of(fluid, day, rules.dryFloorNl()));
  }
}
