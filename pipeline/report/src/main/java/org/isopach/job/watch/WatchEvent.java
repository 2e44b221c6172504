package org.isopach.job.watch;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;

/** What the journal keeps: one line each. All that a watcher knows is the sum of these. */
sealed interface WatchEvent {
  /** Under which options results are made. */
  record Opened(String options) implements WatchEvent {}

  /**
   * A file was looked at.
   *
   * @param size bytes
   * @param modified time of the last change, ns since 1970
   */
  record Examined(Path file, long size, long modified, FileVerdict verdict) implements WatchEvent {}

  /** A file is no longer there. */
  record Gone(Path file) implements WatchEvent {}

  /**
   * Work has begun.
   *
   * @param name the unit's folder within the results
   * @param run number of the run, from 1
   * @param contents digest of the digests of its files
   */
  record Began(UnitKey unit, String name, int run, String contents) implements WatchEvent {}

  /** Work was broken off by us and counts for nothing. */
  record Stopped(UnitKey unit) implements WatchEvent {}

  /**
   * Work failed and is to be tried again.
   *
   * @param due when
   */
  record Failed(UnitKey unit, String contents, Instant at, Instant due, String reason)
      implements WatchEvent {}

  /**
   * Work is at its end. The results stand beside their place, whole and on the disk, and have only
   * to be renamed.
   *
   * @param run number of the run, 0 when it left no results
   * @param ends how each job ended, in words; empty when none did
   * @param sha256s the files it was about
   * @param parked why it is not tried again in spite of failures; empty when it did not fail
   */
  record Ended(UnitKey unit, String name, int run, String ends, List<String> sha256s, String parked)
      implements WatchEvent {
    public Ended {
      sha256s = List.copyOf(sha256s);
    }
  }

  /** What was parked is to be tried again. */
  record Again(UnitKey unit) implements WatchEvent {}
}
