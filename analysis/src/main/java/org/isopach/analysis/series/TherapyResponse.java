package org.isopach.analysis.series;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What became of a sector after the first treatment. It says what followed, not what caused it.
 *
 * @param series the sector's visits
 * @param firstTreatment day of the first treatment
 * @param loadingDays length of the loading phase in days from the first treatment
 * @param reference the last visit with a number on or before the first treatment; empty when there
 *     is none, and then no change is given
 * @param steps one for each later visit, the earliest first
 */
public record TherapyResponse(
    VisitSeries series,
    LocalDate firstTreatment,
    int loadingDays,
    Optional<VisitPoint> reference,
    List<Step> steps) {
  /**
   * Sixteen weeks: three doses four weeks apart are given by day 56, and a visit within eight weeks
   * of the last of them still falls in. Ours; a parameter.
   */
  public static final int USUAL_LOADING_DAYS = 112;

  /** Why no change is given when there is nothing to compare with. */
  public static final String NO_REFERENCE =
      "no visit with a number on or before the first treatment";

  public TherapyResponse {
    Objects.requireNonNull(series, "series");
    Objects.requireNonNull(firstTreatment, "firstTreatment");
    Objects.requireNonNull(reference, "reference");
    steps = List.copyOf(steps);
  }

  /**
   * A visit after the first treatment.
   *
   * @param visit the visit
   * @param daysFromTreatment days from the first treatment, at least 1
   * @param loadingPhase whether it falls into the loading phase
   * @param changeUm change from the reference in µm; empty where either has no number
   * @param changePercent the same in percent of the reference; empty too where that is 0 µm
   * @param reason why there is no change; empty where there is one
   */
  public record Step(
      VisitPoint visit,
      long daysFromTreatment,
      boolean loadingPhase,
      OptionalDouble changeUm,
      OptionalDouble changePercent,
      String reason) {
    public Step {
      Objects.requireNonNull(visit, "visit");
      Objects.requireNonNull(changeUm, "changeUm");
      Objects.requireNonNull(changePercent, "changePercent");
      Objects.requireNonNull(reason, "reason");
    }
  }

  /**
   * Returns what became of a sector. A visit on the day of the treatment counts as before it.
   *
   * @param loadingDays at least 1
   */
  public static TherapyResponse of(VisitSeries series, LocalDate firstTreatment, int loadingDays) {
    if (loadingDays < 1) {
      throw new IllegalArgumentException("a loading phase has days, was " + loadingDays);
    }
    Optional<VisitPoint> reference =
        series.measured().stream()
            .filter(point -> !point.date().isAfter(firstTreatment))
            .reduce((earlier, later) -> later);
    List<Step> steps =
        series.points().stream()
            .filter(point -> point.date().isAfter(firstTreatment))
            .map(point -> step(point, reference, firstTreatment, loadingDays))
            .toList();
    return new TherapyResponse(series, firstTreatment, loadingDays, reference, steps);
  }

  /** Returns the last visit of the loading phase that has a change, or empty. */
  public Optional<Step> loadingPhase() {
    return steps.stream()
        .filter(step -> step.loadingPhase() && step.changeUm().isPresent())
        .reduce((earlier, later) -> later);
  }

  /** Returns the last visit that has a change, or empty. */
  public Optional<Step> last() {
    return steps.stream()
        .filter(step -> step.changeUm().isPresent())
        .reduce((earlier, later) -> later);
  }

  private static Step step(
      VisitPoint point, Optional<VisitPoint> reference, LocalDate treatment, int loadingDays) {
    long days = ChronoUnit.DAYS.between(treatment, point.date());
    boolean loading = days <= loadingDays;
    OptionalDouble none = OptionalDouble.empty();
    if (point.value() instanceof VisitValue.Missing missing) {
      return new Step(point, days, loading, none, none, missing.reason());
    }
    if (reference.isEmpty()) {
      return new Step(point, days, loading, none, none, NO_REFERENCE);
    }
    VisitValue.Given before = reference.get().given().orElseThrow();
    double change = point.given().orElseThrow().changeUm() - before.changeUm();
    OptionalDouble percent =
        before.valueUm() == 0 ? none : OptionalDouble.of(100 * change / before.valueUm());
    return new Step(point, days, loading, OptionalDouble.of(change), percent, "");
  }
}
