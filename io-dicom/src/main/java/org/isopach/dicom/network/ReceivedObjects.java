package org.isopach.dicom.network;

import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Stream;
import org.isopach.dicom.file.HeldFile;
import org.isopach.dicom.read.FileWalk;
import org.isopach.dicom.read.InstanceIdentity;
import org.isopach.dicom.read.ObjectDefect;

/**
 * The folder objects are received into: {@code STUDY/SERIES/INSTANCE.dcm}, named by UIDs.
 *
 * <p>An object is written to {@code .incoming}, forced to the disk, checked, and renamed; nothing
 * half-written ever stands under a final name. Objects that a killed listener left in {@code
 * .incoming} are removed at the next start; reports that are due stay ({@link DueReports}). A SOP
 * Instance UID is kept once: the same bytes again are acknowledged, others are refused and the
 * first are kept. One listener per folder, held by a lock.
 */
class ReceivedObjects implements Closeable {
  private static final String SUFFIX = ".dcm";
  private static final int LOCKS = 64;

  private final Path folder;
  private final Path incoming;
  private final FileChannel lockFile;
  private final Map<String, Path> known = new ConcurrentHashMap<>();
  private final List<Object> locks = Stream.generate(Object::new).limit(LOCKS).toList();
  private final AtomicLong counter = new AtomicLong();
  private final AtomicInteger taken = new AtomicInteger();
  private volatile Set<String> studies = Set.of();

  /** Takes a folder that is locked; {@link #open} is for everybody but tests. */
  ReceivedObjects(Path folder, FileChannel lockFile) {
    this.folder = folder;
    this.incoming = folder.resolve(FileWalk.INCOMING);
    this.lockFile = lockFile;
  }

  /**
   * Opens a folder, made if need be.
   *
   * @throws IOException when it cannot be written, or another listener holds it
   */
  static ReceivedObjects open(Path folder) throws IOException {
    FileChannel channel = lock(folder);
    ReceivedObjects objects = new ReceivedObjects(folder, channel);
    try {
      objects.clean();
      objects.index();
      return objects;
    } catch (IOException e) {
      channel.close();
      throw e;
    }
  }

  /** Refuses from now on what is of no study named here. */
  ReceivedObjects onlyOf(Set<String> studyUids) {
    studies = Set.copyOf(studyUids);
    return this;
  }

  /** Makes a folder if need be and takes its lock, which lasts until the file is closed. */
  static FileChannel lock(Path folder) throws IOException {
    Path incoming = folder.resolve(FileWalk.INCOMING);
    Files.createDirectories(incoming);
    return HeldFile.open(incoming.resolve("lock"), "another listener stores into " + folder);
  }

  private void clean() throws IOException {
    try (DirectoryStream<Path> left = Files.newDirectoryStream(incoming, "*.part")) {
      for (Path file : left) {
        Files.delete(file);
      }
    }
  }

  private void index() throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      files
          .filter(file -> file.getFileName().toString().endsWith(SUFFIX))
          .forEach(file -> known.put(uidOf(file), file));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private static String uidOf(Path file) {
    String name = file.getFileName().toString();
    return name.substring(0, name.length() - SUFFIX.length());
  }

  /** Returns how many objects are kept. */
  int size() {
    return known.size();
  }

  /** Returns how many objects were taken since the start, those kept before among them. */
  int taken() {
    return taken.get();
  }

  /** Returns what writes an object to a new file. */
  PartWriter writer(Path part, byte[] meta) {
    return new PartWriter(part, meta);
  }

  /**
   * Returns why an object is not kept, as a Failure Reason, or 0 when it is: whole, under its final
   * name, and of the class asked for. What is kept was forced to the disk before.
   */
  int whyNotKept(InstanceName name) {
    Path place = known.get(name.sopInstance());
    if (place == null || !Files.exists(place)) {
      return Commitment.NO_SUCH_INSTANCE;
    }
    try {
      InstanceIdentity found = InstanceIdentity.of(place);
      boolean same = found.sopUid().equals(name.sopInstance());
      if (same && !found.sopClassUid().equals(name.sopClass())) {
        return Commitment.CLASS_INSTANCE_CONFLICT;
      }
      return same ? 0 : Commitment.PROCESSING_FAILURE;
    } catch (IOException | ObjectDefect e) {
      return Commitment.PROCESSING_FAILURE;
    }
  }

  /** Returns the folder for what is not an object yet, or not one at all. */
  Path incoming() {
    return incoming;
  }

  /** Returns a new file to write one object to. */
  Path newPart() {
    return incoming.resolve(counter.incrementAndGet() + ".part");
  }

  /**
   * Checks a whole object and gives it its place. The part is gone afterwards.
   *
   * @param sopClass the class the command named
   * @param sopInstance the instance the command named; sound
   * @throws IOException when the disk refuses
   */
  StoreStatus keep(Path part, String sopClass, String sopInstance) throws IOException {
    try {
      InstanceIdentity found = InstanceIdentity.of(part);
      if (!found.sopClassUid().equals(sopClass) || !found.sopUid().equals(sopInstance)) {
        return new StoreStatus(StoreStatus.MISMATCH, "data set and command name other objects");
      }
      if (!Uids.sound(found.studyUid()) || !Uids.sound(found.seriesUid())) {
        return new StoreStatus(
            StoreStatus.NOT_UNDERSTOOD, "Study or Series Instance UID is not a UID");
      }
      if (!studies.isEmpty() && !studies.contains(found.studyUid())) {
        return new StoreStatus(StoreStatus.MISMATCH, "an object of another study");
      }
      Path place =
          folder.resolve(found.studyUid()).resolve(found.seriesUid()).resolve(sopInstance + SUFFIX);
      StoreStatus status = place(part, sopInstance, place);
      taken.addAndGet(status.good() ? 1 : 0);
      return status;
    } catch (ObjectDefect e) {
      return new StoreStatus(StoreStatus.NOT_UNDERSTOOD, e.kind() + ": " + e.detail());
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private StoreStatus place(Path part, String sopInstance, Path place) throws IOException {
    synchronized (locks.get(Math.floorMod(sopInstance.hashCode(), LOCKS))) {
      Path first = known.get(sopInstance);
      if (first == null) {
        move(part, place);
        known.put(sopInstance, place);
        return StoreStatus.success();
      }
      return Files.exists(first) && Files.mismatch(first, part) >= 0
          ? new StoreStatus(
              StoreStatus.DUPLICATE_INSTANCE, "another object with this UID is kept already")
          : replaceLost(first, part);
    }
  }

  /** What somebody took out of the folder meanwhile is put back when it is sent again. */
  private StoreStatus replaceLost(Path first, Path part) throws IOException {
    if (!Files.exists(first)) {
      move(part, first);
    }
    return StoreStatus.success();
  }

  private void move(Path part, Path place) throws IOException {
    Path series = place.getParent();
    Deque<Path> fresh = new ArrayDeque<>();
    for (Path at = series; !Files.isDirectory(at); at = at.getParent()) {
      fresh.push(at.getParent());
    }
    Files.createDirectories(series);
    Files.move(part, place, StandardCopyOption.ATOMIC_MOVE);
    force(series);
    while (!fresh.isEmpty()) {
      force(fresh.pop());
    }
  }

  /** Makes the entries of a folder outlive a power failure. */
  static void force(Path folder) throws IOException {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    }
  }

  @Override
  public void close() throws IOException {
    lockFile.close();
  }
}
