package org.isopach.dicom.network;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashSet;
import java.util.Set;
import java.util.concurrent.TimeUnit;

/**
 * Which objects were acknowledged, by whom: one line each, {@code AET@HOST:PORT}, SHA-256 of the
 * file and SOP Instance UID, with tabs between. A line that was cut off by a crash counts for
 * nothing, and its object is sent again.
 *
 * <p>A line is written when its object is acknowledged, so it outlives this program; it is forced
 * to the disk with others once a second and at the end. A failure of power may cost the lines of a
 * second, whose objects are then sent again: what is in the journal was always acknowledged.
 */
final class SendJournal implements Closeable {
  private static final long FORCE_NANOS = TimeUnit.SECONDS.toNanos(1);

  private final FileChannel channel;
  private final Set<String> lines;
  private long forced = System.nanoTime();

  private SendJournal(FileChannel channel, Set<String> lines) {
    this.channel = channel;
    this.lines = lines;
  }

  /** Opens a journal, made if need be. */
  static SendJournal open(Path file) throws IOException {
    Set<String> lines = new HashSet<>();
    String text = Files.exists(file) ? Files.readString(file, StandardCharsets.UTF_8) : "";
    int end = text.lastIndexOf('\n') + 1;
    text.substring(0, end).lines().forEach(lines::add);
    FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    channel.truncate(text.substring(0, end).getBytes(StandardCharsets.UTF_8).length);
    channel.position(channel.size());
    return new SendJournal(channel, lines);
  }

  private static String line(Destination to, OutgoingFile file) {
    return to + "\t" + file.sha256() + "\t" + file.identity().sopUid();
  }

  boolean acknowledged(Destination to, OutgoingFile file) {
    return lines.contains(line(to, file));
  }

  /** Writes a line; now and then also through to the disk. */
  void acknowledge(Destination to, OutgoingFile file) throws IOException {
    String line = line(to, file);
    if (lines.add(line)) {
      ByteBuffer bytes = StandardCharsets.UTF_8.encode(line + "\n");
      while (bytes.hasRemaining()) {
        channel.write(bytes);
      }
      if (System.nanoTime() - forced > FORCE_NANOS) {
        channel.force(false);
        forced = System.nanoTime();
      }
    }
  }

  @Override
  public void close() throws IOException {
    try (channel) {
      channel.force(false);
    }
  }
}
