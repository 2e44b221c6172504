package org.isopach.job.watch;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * What a watcher did, one event a line, only ever added to. A line that a crash cut off, or that is
 * damaged, counts for nothing; what it was about is looked at or done again.
 *
 * <p>Plain file output is used, since a channel is closed when its thread is interrupted.
 */
final class WatchJournal implements Closeable {
  private final RandomAccessFile file;
  private final int damaged;
  private boolean dirty;

  private WatchJournal(RandomAccessFile file, int damaged) {
    this.file = file;
    this.damaged = damaged;
  }

  /**
   * Opens a journal, made if need be, at its end; a line that was cut off is taken away.
   *
   * @param replay is told all events so far
   */
  static WatchJournal open(Path path, Consumer<WatchEvent> replay) throws IOException {
    Replayed replayed = Files.exists(path) ? replay(path, replay) : new Replayed(0, 0);
    RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw");
    try {
      file.setLength(replayed.end());
      file.seek(replayed.end());
      return new WatchJournal(file, replayed.damaged());
    } catch (IOException e) {
      file.close();
      throw e;
    }
  }

  /**
   * What was read of a journal.
   *
   * @param end position after the last line that is not cut off
   * @param damaged number of lines that are not whole
   */
  record Replayed(long end, int damaged) {}

  /** Tells all events of a journal. */
  static Replayed replay(Path path, Consumer<WatchEvent> replay) throws IOException {
    long at = 0;
    long end = 0;
    int damaged = 0;
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    try (InputStream in = new BufferedInputStream(Files.newInputStream(path))) {
      for (int b = in.read(); b >= 0; b = in.read()) {
        at++;
        if (b != '\n') {
          line.write(b);
          continue;
        }
        Optional<WatchEvent> event = EventLine.read(line.toString(StandardCharsets.UTF_8));
        event.ifPresent(replay);
        damaged += event.isPresent() ? 0 : 1;
        end = at;
        line.reset();
      }
    }
    return new Replayed(end, damaged + (line.size() > 0 ? 1 : 0));
  }

  /** Returns how many lines were not whole when it was opened. */
  int damaged() {
    return damaged;
  }

  /** Adds a line; it may be lost with the power until {@link #force} returns. */
  void write(WatchEvent event) throws IOException {
    file.write((EventLine.of(event) + "\n").getBytes(StandardCharsets.UTF_8));
    dirty = true;
  }

  /** Brings all lines to the disk. */
  void force() throws IOException {
    if (dirty) {
      file.getFD().sync();
      dirty = false;
    }
  }

  @Override
  public void close() throws IOException {
    try {
      force();
    } finally {
      file.close();
    }
  }
}
