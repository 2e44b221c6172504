package org.isopach.job.watch;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.finding.Finding;
import org.isopach.job.ExitStatus;
import org.isopach.job.JobListener;

/** Works on one unit after the other and writes down how it went. */
final class UnitRunner {
  private final WatchSettings settings;
  private final WatchLog log;
  private final FileBook book;
  private final WatchTime time;
  private final ResultFolders folders;
  private final List<ExitStatus> statuses = new ArrayList<>();
  private boolean trouble;

  /** Work that can be broken off. */
  @FunctionalInterface
  interface Work {
    WorkResult run(PendingUnit unit, Path out, JobListener listener) throws InterruptedException;
  }

  UnitRunner(WatchSettings settings, WatchLog log, FileBook book, WatchTime time) {
    this.settings = settings;
    this.log = log;
    this.book = book;
    this.time = time;
    this.folders = new ResultFolders(settings.results());
  }

  /** Brings to an end, or takes back, what an earlier watcher left when it was killed. */
  void recover() throws IOException {
    WatchEvent.Ended end = log.state().lastEnd().orElse(null);
    if (end != null && end.run() > 0) {
      folders.publish(end.name(), end.run());
    }
    for (UnitKey key : List.copyOf(log.state().units().keySet())) {
      UnitRecord record = log.state().unit(key);
      if (record.open()) {
        folders.discard(record.name(), record.run());
        Instant now = time.now();
        String reason = "the program ended while it worked on this";
        log.recordForGood(new WatchEvent.Failed(key, record.contents(), now, now, reason));
      }
    }
  }

  /** Works on a unit. */
  void run(PendingUnit unit, Work work) throws IOException {
    UnitRecord record = log.state().unit(unit.key());
    String contents = unit.contents();
    String name = log.state().nameOf(unit.key());
    if (record.failures(contents) > settings.retries()) {
      end(unit, name, 0, "", record.reason());
      return;
    }
    if (!unchanged(unit)) {
      return;
    }
    int run = folders.next(name, record.lastResults());
    log.recordForGood(new WatchEvent.Began(unit.key(), name, run, contents));
    log.talk().say("working on " + unit.key().words() + ", " + unit.inputs().size() + " files");
    try {
      WorkResult result = work.run(unit, folders.freshPart(name, run), new Remarks());
      if (unchanged(unit)) {
        finish(unit, name, run, result);
        return;
      }
      log.talk().say("files of " + unit.key().words() + " changed meanwhile; done again later");
    } catch (InterruptedException e) {
      log.talk().say("broke off " + unit.key().words() + "; done again at the next start");
    }
    folders.discard(name, run);
    log.recordForGood(new WatchEvent.Stopped(unit.key()));
  }

  private boolean unchanged(PendingUnit unit) {
    Instant now = time.now();
    return unit.files().entrySet().stream()
        .allMatch(file -> book.unchanged(file.getKey(), file.getValue(), now));
  }

  private void finish(PendingUnit unit, String name, int run, WorkResult result)
      throws IOException {
    int failures = log.state().unit(unit.key()).failures(unit.contents()) + 1;
    if (result.failure().isPresent() && failures <= settings.retries()) {
      folders.discard(name, run);
      Instant now = time.now();
      Instant due = now.plus(WatchSettings.REST.after(failures));
      String reason = result.failure().get();
      log.recordForGood(new WatchEvent.Failed(unit.key(), unit.contents(), now, due, reason));
      trouble = true;
      log.talk()
          .say(
              "failed: %s: %s; tried again in %d min"
                  .formatted(
                      unit.key().words(), reason, WatchSettings.REST.after(failures).toMinutes()));
      return;
    }
    boolean results = !result.ends().isEmpty();
    if (results) {
      folders.force(name, run);
    } else {
      folders.discard(name, run);
    }
    statuses.add(result.status());
    end(unit, name, results ? run : 0, result.words(), result.failure().orElse(""));
  }

  private void end(PendingUnit unit, String name, int run, String ends, String parked)
      throws IOException {
    log.recordForGood(new WatchEvent.Ended(unit.key(), name, run, ends, unit.sha256s(), parked));
    if (run > 0) {
      folders.publish(name, run);
      log.talk().say(unit.key().words() + ": " + ends + "; " + folders.place(name, run));
    }
    if (!parked.isEmpty()) {
      trouble = true;
      log.talk().say("parked: " + unit.key().words() + ": " + parked);
    }
  }

  /** Returns whether any work came to its end. */
  boolean worked() {
    return !statuses.isEmpty();
  }

  /** Returns how everything worked on ended, and whether anything else is amiss. */
  ExitStatus status(boolean otherTrouble) {
    boolean all = statuses.stream().allMatch(ExitStatus.ALL_MEASURED::equals);
    if (!statuses.isEmpty() && statuses.stream().allMatch(ExitStatus.NOTHING_MEASURABLE::equals)) {
      return ExitStatus.NOTHING_MEASURABLE;
    }
    return all && !trouble && !otherTrouble
        ? ExitStatus.ALL_MEASURED
        : ExitStatus.SOME_NOT_MEASURED;
  }

  private final class Remarks implements JobListener {
    @Override
    public void finding(Finding finding) {
      log.talk().detail(finding.sentence());
    }
  }
}
