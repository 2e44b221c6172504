package org.isopach.dicom.network;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.isopach.dicom.file.HeldFile;

/**
 * Which objects were acknowledged, by whom: one line each, {@code AET@HOST:PORT} or URL, SHA-256 of
 * the file and SOP Instance UID, with tabs between. A line that was cut off by a crash counts for
 * nothing, and its object is sent again.
 *
 * <p>A line is written when its object is acknowledged, so it outlives this program; it is forced
 * to the disk with others once a second and at the end. A failure of power may cost the lines of a
 * second, whose objects are then sent again: what is in the journal was always acknowledged.
 */
public final class SendJournal implements Closeable {
  private static final long FORCE_NANOS = TimeUnit.SECONDS.toNanos(1);
  private static final Pattern LINE =
      Pattern.compile("[^\\p{Cntrl}]+\\t[0-9a-f]{64}\\t[0-9.]{1,64}");
  private static final Pattern CUT =
      Pattern.compile("[^\\p{Cntrl}]+(?:\\t[0-9a-f]{0,64}|\\t[0-9a-f]{64}\\t[0-9.]{0,64})?");

  private final FileChannel channel;
  private final Set<String> lines;
  private long forced = System.nanoTime();

  private SendJournal(FileChannel channel, Set<String> lines) {
    this.channel = channel;
    this.lines = lines;
  }

  /**
   * Opens a journal, made if need be. A file with anything else in it is left as it is.
   *
   * @throws IOException when the file is no journal, or another program uses it
   */
  public static SendJournal open(Path file) throws IOException {
    FileChannel channel =
        HeldFile.open(file, "another program sends with the journal '" + file + "'");
    try {
      String text = new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
      int end = text.lastIndexOf('\n') + 1;
      if (!isJournal(text.substring(0, end), text.substring(end))) {
        throw new IOException("'" + file + "' is not a journal of this program; give another file");
      }
      channel.truncate(end);
      channel.position(end);
      return new SendJournal(channel, lines(text.substring(0, end)));
    } catch (IOException e) {
      channel.close();
      throw e;
    }
  }

  /** Each character of the text is a byte. */
  private static Set<String> lines(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
    return new String(bytes, StandardCharsets.UTF_8).lines().collect(Collectors.toSet());
  }

  /** What was cut off right at the start of the first line cannot be told from any other text. */
  private static boolean isJournal(String whole, String tail) {
    boolean sound = whole.lines().allMatch(line -> LINE.matcher(line).matches());
    boolean begun = tail.isEmpty() || CUT.matcher(tail).matches();
    return sound && begun && (tail.isEmpty() || !whole.isEmpty() || tail.contains("\t"));
  }

  private static String line(String to, OutgoingFile file) {
    return to + "\t" + file.sha256() + "\t" + file.identity().sopUid();
  }

  /**
   * Returns whether a file was acknowledged in an earlier run.
   *
   * @param to who it was sent to, without tabs and line ends
   */
  public boolean acknowledged(String to, OutgoingFile file) {
    return lines.contains(line(to, file));
  }

  /** Writes a line; now and then also through to the disk. */
  public void acknowledge(String to, OutgoingFile file) throws IOException {
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
