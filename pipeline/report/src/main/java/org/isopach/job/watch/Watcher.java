package org.isopach.job.watch;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.isopach.job.ExitStatus;
import org.isopach.job.JobListener;

/**
 * Watches folders and works on what comes, one unit at a time, each content once. It reads the
 * folders and writes nothing into them. All it knows is in the journal of the folder of results: it
 * can be killed at any time, and the next one goes on.
 */
public final class Watcher {
  /** How long files are examined before it is asked whether a unit is due. */
  private static final Duration SLICE = Duration.ofSeconds(2);

  private final WatchSettings settings;
  private final UnitWork work;
  private final WatchTalk talk;
  private final WatchTime time;
  private Thread interruptible;
  private volatile boolean stopped;

  /** Makes a watcher. */
  public Watcher(WatchSettings settings, UnitWork work, WatchTalk talk, WatchTime time) {
    this.settings = settings;
    this.work = work;
    this.talk = talk;
    this.time = time;
  }

  /**
   * Watches until it is stopped, or with {@code once} until all that was there is done.
   *
   * @param again whether what was parked is tried once more
   * @return how what was worked on ended
   * @throws IOException when results or journal cannot be written, or another watcher holds them
   * @throws IllegalArgumentException when the folder's results were made with other options
   */
  public ExitStatus run(boolean again) throws IOException {
    try (WatchLog log = WatchLog.open(settings.results(), talk)) {
      checkOptions(log);
      FileBook book = new FileBook(settings, log);
      UnitRunner runner = new UnitRunner(settings, log, book, time);
      runner.recover();
      if (again) {
        unpark(log);
      }
      watch(book, new UnitQueue(settings, log.state(), book), runner);
      ExitStatus status = runner.status(book.trouble());
      boolean idle = !runner.worked() && status == ExitStatus.ALL_MEASURED;
      talk.say((stopped ? "stopped; " : "") + (idle ? "nothing new was done" : status.words()));
      return status;
    }
  }

  /** Ends the watch soon; work under way is broken off and done again by the next watcher. */
  public synchronized void stop() {
    stopped = true;
    if (interruptible != null) {
      interruptible.interrupt();
    }
  }

  private void checkOptions(WatchLog log) throws IOException {
    Optional<String> before = log.state().options();
    if (before.filter(Predicate.not(settings.options()::equals)).isPresent()) {
      throw new IllegalArgumentException(
          "the results in '"
              + settings.results()
              + "' were made with ("
              + before.get()
              + "), not with ("
              + settings.options()
              + "); give another folder");
    }
    if (before.isEmpty()) {
      log.recordForGood(new WatchEvent.Opened(settings.options()));
    }
  }

  private static void unpark(WatchLog log) throws IOException {
    for (UnitKey key : List.copyOf(log.state().units().keySet())) {
      if (log.state().unit(key).parked()) {
        log.recordForGood(new WatchEvent.Again(key));
      }
    }
  }

  private void watch(FileBook book, UnitQueue queue, UnitRunner runner) throws IOException {
    Instant nextLook = Instant.MIN;
    while (!stopped) {
      if (!time.now().isBefore(nextLook)) {
        book.look(time.now());
        nextLook = time.now().plus(settings.every());
      }
      Optional<PendingUnit> unit = queue.next(time.now());
      if (unit.isPresent()) {
        runner.run(unit.get(), this::work);
      } else if (!book.examine(time, SLICE, () -> stopped)) {
        if (settings.once() && !book.settling() && !queue.expects()) {
          return;
        }
        pause(Duration.between(time.now(), nextLook));
      }
    }
  }

  private WorkResult work(PendingUnit unit, Path out, JobListener listener)
      throws InterruptedException {
    allowInterrupts();
    try {
      WorkResult result = work.run(unit.inputs(), out, listener);
      if (stopped) {
        throw new InterruptedException("stopped");
      }
      return result;
    } finally {
      refuseInterrupts();
    }
  }

  private void pause(Duration duration) {
    try {
      allowInterrupts();
      time.sleep(duration);
    } catch (InterruptedException e) {
      talk.detail("stopped while waiting");
    } finally {
      refuseInterrupts();
    }
  }

  /** Only work and waiting are interrupted: writing down what was done is not. */
  private synchronized void allowInterrupts() throws InterruptedException {
    if (stopped) {
      throw new InterruptedException("stopped");
    }
    interruptible = Thread.currentThread();
  }

  private synchronized void refuseInterrupts() {
    interruptible = null;
    Thread.interrupted();
  }
}
