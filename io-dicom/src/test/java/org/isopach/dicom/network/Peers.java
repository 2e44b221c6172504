package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.isopach.dicom.fixture.TomographyBuilder;

/** What the tests of the network share: objects to send, and programs of dcmtk as peers. */
final class Peers {
  static final String AET = "SANDPIPER";

  /** Not a name: programs of others listen by IPv4 only, and a name may stand for ::1 alone. */
  static final String HOST = "127.0.0.1";

  /** Long, for machines that are busy with something else; nothing is as slow by itself. */
  static final Duration PATIENCE = Duration.ofMinutes(1);

  private static final String MODEL_UID = "2.25.7000000000";

  private Peers() {}

  /** Starts to listen for everybody: four associations at most, objects of 1 MiB. */
  static StorageListener listening(Path folder, Duration patience, NetworkEvents events)
      throws IOException {
    return StorageListener.start(
        new ListenerSettings(
            0, AET, folder, Set.of(), List.of(), 4, 1 << 20, patience, Optional.empty(), false),
        events);
  }

  /** Skips the test when programs are not installed. */
  static void need(String... programs) {
    for (String program : programs) {
      boolean there =
          Stream.of(System.getenv("PATH").split(File.pathSeparator, -1))
              .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
      assumeTrue(there, program + " is not installed; bin/setup installs dcmtk");
    }
  }

  /** Writes objects that differ in their SOP Instance UIDs, in one series. */
  static List<Path> objects(Path folder, int from, int count) throws IOException {
    Files.createDirectories(folder);
    Path model = folder.resolve("model");
    new TomographyBuilder()
        .with(
            object ->
                object.text(
                    org.isopach.dicom.data.Tags.SOP_INSTANCE_UID,
                    org.isopach.dicom.data.Vr.UI,
                    MODEL_UID))
        .write(model);
    String bytes = Files.readString(model, StandardCharsets.ISO_8859_1);
    Files.delete(model);
    List<Path> files = new ArrayList<>();
    for (int i = from; i < from + count; i++) {
      Path file = folder.resolve(String.format("%05d.dcm", i));
      Files.writeString(file, bytes.replace(MODEL_UID, uid(i)), StandardCharsets.ISO_8859_1);
      files.add(file);
    }
    return files;
  }

  static String uid(int number) {
    return "2.25." + (7000000000L + number);
  }

  /** Waits until somebody answers with a place free. */
  static void awaitEcho(int port) throws InterruptedException {
    long end = System.nanoTime() + Duration.ofMinutes(2).toNanos();
    while (true) {
      try {
        StorageSender.echo(to(port));
        return;
      } catch (IOException e) {
        if (System.nanoTime() > end) {
          throw new AssertionError("nobody answers", e);
        }
        Thread.sleep(50);
      }
    }
  }

  static CallerSettings to(int port) {
    return new CallerSettings(
        "TERN", new Destination(AET, HOST, port), PATIENCE, Optional.empty(), 0);
  }

  /** Returns the objects that were received. */
  static List<Path> kept(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> file.toString().endsWith(".dcm")).sorted().toList();
    }
  }

  /** Returns files in the folder for what is not yet whole, but for the lock. */
  static List<Path> unfinished(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder.resolve(".incoming"))) {
      return files.filter(file -> !file.endsWith("lock")).toList();
    }
  }
}
