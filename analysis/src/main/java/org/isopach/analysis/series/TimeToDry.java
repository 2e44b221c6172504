package org.isopach.analysis.series;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * When an eye was first found dry after its first treatment.
 *
 * @param state the answer
 * @param visit the visit it rests on: the first dry one, the last wet one, the dry one before the
 *     treatment; empty for the other states
 * @param days days from the first treatment to that visit; empty without visit
 * @param unmeasured visits after the treatment without a volume: before the first dry one, if there
 *     is one, else all
 */
public record TimeToDry(
    State state, Optional<VisitFluid> visit, OptionalLong days, List<VisitFluid> unmeasured) {
  /**
   * Up to this volume in nL an eye counts as dry: readers of one trial found fluid above 5 nL with
   * a sensitivity of 0.81 to 0.98 (docs/measurements.md, "Regions"). That it serves as the floor
   * here is ours; a parameter.
   */
  public static final double USUAL_FLOOR_NL = 5;

  /** What can be the answer. */
  public enum State {
    /** Dry at a visit after the treatment. */
    DRY("dry"),
    /** Dry at the last measured visit on or before the treatment: there was nothing to dry. */
    DRY_BEFORE("dry-before-treatment"),
    /** Not dry by the last visit that was measured. */
    NOT_DRY("not-dry"),
    /** No visit after the treatment has a volume. */
    NOT_MEASURABLE("not-measurable"),
    /** There is no visit after the treatment. */
    NO_LATER_VISIT("no-later-visit");

    private final String code;

    State(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }

  public TimeToDry {
    Objects.requireNonNull(state, "state");
    Objects.requireNonNull(visit, "visit");
    Objects.requireNonNull(days, "days");
    unmeasured = List.copyOf(unmeasured);
  }

  /**
   * Returns the answer.
   *
   * @param visits the eye's visits, the earliest first
   * @param treatment day of the first treatment; a visit on it counts as before
   * @param floorNl volume in nL up to which an eye counts as dry
   */
  public static TimeToDry of(List<VisitFluid> visits, LocalDate treatment, double floorNl) {
    Optional<VisitFluid> before =
        visits.stream()
            .filter(visit -> !visit.date().isAfter(treatment) && visit.volumeNl().isPresent())
            .reduce((earlier, later) -> later);
    List<VisitFluid> after =
        visits.stream().filter(visit -> visit.date().isAfter(treatment)).toList();
    if (before.isPresent() && dry(before.get(), floorNl)) {
      return answer(State.DRY_BEFORE, before, treatment, List.of());
    }
    if (after.isEmpty()) {
      return answer(State.NO_LATER_VISIT, Optional.empty(), treatment, List.of());
    }
    Optional<VisitFluid> dry = after.stream().filter(visit -> dry(visit, floorNl)).findFirst();
    if (dry.isPresent()) {
      return answer(
          State.DRY, dry, treatment, unmeasured(after.subList(0, after.indexOf(dry.get()))));
    }
    Optional<VisitFluid> wet =
        after.stream()
            .filter(visit -> visit.volumeNl().isPresent())
            .reduce((earlier, later) -> later);
    State state = wet.isPresent() ? State.NOT_DRY : State.NOT_MEASURABLE;
    return answer(state, wet, treatment, unmeasured(after));
  }

  private static boolean dry(VisitFluid visit, double floorNl) {
    return visit.volumeNl().isPresent() && visit.volumeNl().getAsDouble() <= floorNl;
  }

  private static List<VisitFluid> unmeasured(List<VisitFluid> visits) {
    return visits.stream().filter(visit -> visit.volumeNl().isEmpty()).toList();
  }

  private static TimeToDry answer(
      State state, Optional<VisitFluid> visit, LocalDate treatment, List<VisitFluid> unmeasured) {
    OptionalLong days =
        visit.isPresent()
            ? OptionalLong.of(ChronoUnit.DAYS.between(treatment, visit.get().date()))
            : OptionalLong.empty();
    return new TimeToDry(state, visit, days, unmeasured);
  }
}
