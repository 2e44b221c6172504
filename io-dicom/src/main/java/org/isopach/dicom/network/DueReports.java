package org.isopach.dicom.network;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Requests for storage commitment that are accepted and not yet reported on, each in a file of its
 * own, so that they outlive this program. Thread-safe.
 *
 * <p>A file is text: title of who asked, Transaction UID, then a line for each object with its SOP
 * class and instance. It is forced to the disk before it gets its name.
 */
final class DueReports {
  private static final Pattern NAME = Pattern.compile("([0-9]{1,18})\\.commit");

  private final Path folder;
  private final List<Due> left = new ArrayList<>();
  private final List<Path> damaged = new ArrayList<>();
  private final AtomicLong counter = new AtomicLong();

  /**
   * A report that is due.
   *
   * @param file where it is written down
   * @param title of who asked
   * @param request what was asked for
   */
  record Due(Path file, String title, Commitment request) {}

  private DueReports(Path folder) {
    this.folder = folder;
  }

  /**
   * Reads what an earlier program left.
   *
   * @param folder which nobody else uses
   * @throws IOException when the folder cannot be read
   */
  static DueReports open(Path folder) throws IOException {
    List<Path> files = new ArrayList<>();
    try (DirectoryStream<Path> all = Files.newDirectoryStream(folder, "*.commit")) {
      all.forEach(file -> files.add(file));
    }
    files.removeIf(file -> number(file) < 0);
    files.sort(Comparator.comparingLong(DueReports::number));
    DueReports reports = new DueReports(folder);
    files.forEach(reports::read);
    reports.counter.set(files.isEmpty() ? 0 : number(files.get(files.size() - 1)));
    return reports;
  }

  private static long number(Path file) {
    Matcher name = NAME.matcher(file.getFileName().toString());
    return name.matches() ? Long.parseLong(name.group(1)) : -1;
  }

  private void read(Path file) {
    try {
      List<String> lines = Files.readAllLines(file);
      List<InstanceName> names =
          lines.stream().skip(2).map(line -> line.split(" ", 2)).map(DueReports::name).toList();
      if (!names.isEmpty()
          && names.stream().allMatch(InstanceName::sound)
          && Uids.sound(lines.get(1))) {
        left.add(new Due(file, lines.get(0), new Commitment(lines.get(1), names, List.of())));
        return;
      }
    } catch (IOException e) {
      // It is named with those that hold something else.
    }
    damaged.add(file);
  }

  private static InstanceName name(String[] uids) {
    return new InstanceName(uids[0], uids.length < 2 ? "" : uids[1]);
  }

  /** Returns what an earlier program left, the oldest first. */
  List<Due> left() {
    return List.copyOf(left);
  }

  /** Returns files of an earlier program that cannot be read. */
  List<Path> damaged() {
    return List.copyOf(damaged);
  }

  /**
   * Writes a request down.
   *
   * @throws IOException when the disk refuses; nothing is left then
   */
  Due add(String title, Commitment request) throws IOException {
    StringBuilder text = new StringBuilder(title + "\n" + request.transaction() + "\n");
    for (InstanceName one : request.referenced()) {
      text.append(one.sopClass()).append(' ').append(one.sopInstance()).append('\n');
    }
    Path file = folder.resolve(counter.incrementAndGet() + ".commit");
    Path part = folder.resolve(file.getFileName() + ".part");
    try {
      try (FileChannel channel =
          FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
        ByteBuffer bytes = StandardCharsets.UTF_8.encode(text.toString());
        while (bytes.hasRemaining()) {
          channel.write(bytes);
        }
        channel.force(true);
      }
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
      ReceivedObjects.force(folder);
    } catch (IOException e) {
      Files.deleteIfExists(file);
      throw e;
    } finally {
      Files.deleteIfExists(part);
    }
    return new Due(file, title, request);
  }

  /** Takes a report away that is due no more. */
  void done(Due due) throws IOException {
    Files.deleteIfExists(due.file());
  }
}
