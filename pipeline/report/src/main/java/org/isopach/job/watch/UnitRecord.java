package org.isopach.job.watch;

import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** What was done about one unit: the sum of its events. */
final class UnitRecord {
  private final Set<String> dealtWith = new HashSet<>();
  private List<String> parkedFiles = List.of();
  private String name = "";
  private String contents = "";
  private String ends = "";
  private String reason = "";
  private Instant failedAt = Instant.MIN;
  private Instant due = Instant.MIN;
  private int run;
  private int lastResults;
  private int failures;
  private boolean open;

  void began(WatchEvent.Began event) {
    name = event.name();
    if (!contents.equals(event.contents())) {
      contents = event.contents();
      failures = 0;
    }
    run = event.run();
    open = true;
  }

  void stopped() {
    open = false;
  }

  void failed(WatchEvent.Failed event) {
    failures = contents.equals(event.contents()) ? failures + 1 : 1;
    contents = event.contents();
    failedAt = event.at();
    due = event.due();
    reason = event.reason();
    open = false;
  }

  void ended(WatchEvent.Ended event) {
    name = event.name();
    dealtWith.addAll(event.sha256s());
    parkedFiles = event.parked().isEmpty() ? List.of() : event.sha256s();
    reason = event.parked();
    ends = event.ends();
    lastResults = event.run() > 0 ? event.run() : lastResults;
    failures = 0;
    open = false;
  }

  void again() {
    parkedFiles.forEach(dealtWith::remove);
    parkedFiles = List.of();
  }

  /** Returns whether a file with this content was worked on, or given up. */
  boolean dealtWith(String sha256) {
    return dealtWith.contains(sha256);
  }

  /** Returns how often work on just these contents failed. */
  int failures(String ofContents) {
    return contents.equals(ofContents) ? failures : 0;
  }

  /** Returns whether the wait after a failure is over; a clock set back ends it too. */
  boolean due(String ofContents, Instant now) {
    return failures(ofContents) == 0 || !now.isBefore(due) || now.isBefore(failedAt);
  }

  /** Returns its folder, empty before the first work on it. */
  String name() {
    return name;
  }

  String contents() {
    return contents;
  }

  int failures() {
    return failures;
  }

  /** Returns the run that was begun last. */
  int run() {
    return run;
  }

  /** Returns the run whose results are the latest, 0 when there are none. */
  int lastResults() {
    return lastResults;
  }

  String ends() {
    return ends;
  }

  /** Returns why it failed or was parked, or empty. */
  String reason() {
    return reason;
  }

  boolean parked() {
    return !parkedFiles.isEmpty();
  }

  /** Returns whether work was begun and nothing is known of its end. */
  boolean open() {
    return open;
  }
}
