package org.isopach.job.watch;

import java.io.Closeable;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import org.isopach.dicom.file.HeldFile;

/** The journal of a folder of results together with what it adds up to; held by one watcher. */
final class WatchLog implements Closeable {
  private final WatchState state = new WatchState();
  private final WatchTalk talk;
  private final FileChannel lock;
  private WatchJournal journal;

  private WatchLog(FileChannel lock, WatchTalk talk) {
    this.lock = lock;
    this.talk = talk;
  }

  /** Returns the journal of a folder of results. */
  static Path journal(Path results) {
    return results.resolve(".watch").resolve("journal");
  }

  /**
   * Opens the log of a folder of results, which is made if need be.
   *
   * @throws IOException when it cannot be written, or another watcher holds it
   */
  static WatchLog open(Path results, WatchTalk talk) throws IOException {
    Path file = journal(results);
    Files.createDirectories(file.getParent());
    FileChannel channel =
        HeldFile.open(file.resolveSibling("lock"), "another watcher works on " + results);
    WatchLog log = new WatchLog(channel, talk);
    try {
      log.journal = WatchJournal.open(file, log.state::apply);
      if (log.journal.damaged() > 0) {
        talk.say(log.journal.damaged() + " damaged lines of the journal are left out of account");
      }
      return log;
    } catch (IOException e) {
      channel.close();
      throw e;
    }
  }

  /** Writes an event down and takes it into account. */
  void record(WatchEvent event) throws IOException {
    journal.write(event);
    state.apply(event);
  }

  /** Writes an event through to the disk and takes it into account. */
  void recordForGood(WatchEvent event) throws IOException {
    record(event);
    journal.force();
  }

  void force() throws IOException {
    journal.force();
  }

  WatchState state() {
    return state;
  }

  WatchTalk talk() {
    return talk;
  }

  @Override
  public void close() throws IOException {
    try {
      journal.close();
    } finally {
      lock.close();
    }
  }
}
