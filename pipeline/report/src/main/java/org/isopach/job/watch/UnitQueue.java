package org.isopach.job.watch;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Comparator;
import java.util.Optional;
import java.util.Set;

/** Which unit is worked on next. */
final class UnitQueue {
  private final WatchSettings settings;
  private final WatchState state;
  private final FileBook book;

  UnitQueue(WatchSettings settings, WatchState state, FileBook book) {
    this.settings = settings;
    this.state = state;
    this.book = book;
  }

  /**
   * Returns the unit to work on now: what never failed first, then what has waited longest. A unit
   * waits while a file beside one of its own is still to be examined: that may belong to it too.
   */
  Optional<PendingUnit> next(Instant now) {
    Set<Path> unexamined = book.unexamined(now);
    return PendingUnit.among(book.present(), state).values().stream()
        .filter(PendingUnit::scan)
        .filter(unit -> !now.isBefore(unit.lastNews().plus(settings.quiet())))
        .filter(unit -> failures(unit) == 0 || record(unit).due(unit.contents(), now))
        .sorted(
            Comparator.comparingInt(this::failures)
                .thenComparing(PendingUnit::lastNews)
                .thenComparing(PendingUnit::key))
        .filter(unit -> unit.folders().noneMatch(unexamined::contains))
        .findFirst();
  }

  /** Returns whether a unit will be worked on soon, not counting what waits after a failure. */
  boolean expects() {
    return PendingUnit.among(book.present(), state).values().stream()
        .anyMatch(unit -> unit.scan() && failures(unit) == 0);
  }

  private int failures(PendingUnit unit) {
    UnitRecord record = record(unit);
    return record.failures() == 0 ? 0 : record.failures(unit.contents());
  }

  private UnitRecord record(PendingUnit unit) {
    return state.unit(unit.key());
  }
}
