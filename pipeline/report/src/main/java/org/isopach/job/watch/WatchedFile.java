package org.isopach.job.watch;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/** What is known of one file. Small, since there may be very many. */
final class WatchedFile {
  private long size;
  private long modified;
  private FileVerdict verdict;
  private Instant since = Instant.MIN;
  private Instant examined = Instant.MIN;
  private Instant nextTry = Instant.MIN;
  private int looks;
  private int tries;
  private int lastLook;
  private boolean steady;

  /** Takes what an earlier watcher found. */
  void remember(long knownSize, long knownModified, FileVerdict known) {
    size = knownSize;
    modified = knownModified;
    verdict = known;
  }

  /**
   * Takes size and time of the last change as they are now; a file that differs is looked at anew.
   *
   * @param look number of the look, from 1
   */
  void see(long nowSize, long nowModified, Instant now, int look) {
    boolean unknown = verdict == null && looks == 0;
    if (unknown || !same(nowSize, nowModified)) {
      change(nowSize, nowModified, now);
      steady = unknown && look == 1;
    }
    looks++;
    lastLook = look;
  }

  /** Forgets the verdict: the file has changed and must settle again. */
  void change(long nowSize, long nowModified, Instant now) {
    size = nowSize;
    modified = nowModified;
    verdict = null;
    since = now;
    looks = 0;
    tries = 0;
    nextTry = Instant.MIN;
    steady = false;
  }

  /** Notes that it was examined just now. */
  void judged(Instant now) {
    examined = now;
    if (verdict instanceof FileVerdict.Waiting) {
      tries++;
      nextTry = now.plus(WatchSettings.REST.after(tries));
    }
  }

  boolean same(long otherSize, long otherModified) {
    return size == otherSize && modified == otherModified;
  }

  /** Returns whether it has to be examined: it has settled, or its wait is over. */
  boolean ripe(Instant now, Duration quiet) {
    if (verdict == null) {
      return looks >= 2 && !now.isBefore(since.plus(quiet));
    }
    return verdict instanceof FileVerdict.Waiting && !now.isBefore(nextTry);
  }

  /** Returns whether it was there from the first look on and has not changed, but not settled. */
  boolean settling() {
    return steady && verdict == null;
  }

  boolean seenAt(int look) {
    return lastLook == look;
  }

  long size() {
    return size;
  }

  long modified() {
    return modified;
  }

  Optional<FileVerdict> verdict() {
    return Optional.ofNullable(verdict);
  }

  /** Returns the verdict when it is a member of a unit, else null. */
  FileVerdict.Member member() {
    return verdict instanceof FileVerdict.Member member ? member : null;
  }

  /** Returns when it was examined; long ago for what an earlier watcher found. */
  Instant examined() {
    return examined;
  }

  /** Returns how often it was found unfinished or unreadable. */
  int tries() {
    return tries;
  }
}
