package org.isopach.job.watch;

import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.TreeMap;

/** A clock that moves only while the watcher sleeps, and does what was planned for a second. */
final class PlannedTime implements WatchTime {
  static final Instant START = Instant.parse("2026-03-02T08:00:00Z");

  /** Something that happens. */
  interface Happening {
    void happen() throws Exception;
  }

  private final TreeMap<Long, Happening> plan = new TreeMap<>();
  private Instant now = START;

  /** Plans something for a number of seconds after the start. */
  PlannedTime at(long seconds, Happening what) {
    plan.put(seconds, what);
    return this;
  }

  /** Returns the seconds since the start. */
  long seconds() {
    return Duration.between(START, now).toSeconds();
  }

  @Override
  public Instant now() {
    return now;
  }

  @Override
  public void sleep(Duration duration) {
    Instant end = now.plus(duration);
    for (Map.Entry<Long, Happening> next = plan.firstEntry();
        next != null && !START.plusSeconds(next.getKey()).isAfter(end);
        next = plan.firstEntry()) {
      now = START.plusSeconds(next.getKey());
      plan.pollFirstEntry();
      try {
        next.getValue().happen();
      } catch (Exception e) {
        throw new IllegalStateException(e);
      }
    }
    now = end;
  }
}
