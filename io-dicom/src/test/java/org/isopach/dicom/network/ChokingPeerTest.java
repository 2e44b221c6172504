package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Peers and files that end an association must not take the objects behind them along. */
class ChokingPeerTest {
  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();

  private ListenerSettings taking(long mostBytes) {
    ListenerSettings usual = ListenerSettings.usual(0, Peers.AET, folder.resolve("out"));
    return new ListenerSettings(
        0,
        usual.aet(),
        usual.folder(),
        usual.callers(),
        usual.addresses(),
        usual.mostAssociations(),
        mostBytes,
        usual.patience(),
        usual.tls(),
        false);
  }

  private SendResult send(int port, int retries, List<Path> files) throws IOException {
    CallerSettings once = Peers.to(port);
    CallerSettings caller =
        new CallerSettings(once.callingAet(), once.to(), once.patience(), once.tls(), retries);
    return StorageSender.send(caller, files, Optional.of(folder.resolve("journal")), events);
  }

  @Test
  void anObjectThePeerAbortsAtFailsAlone() throws Exception {
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 5);
    long size = Files.size(files.get(0));
    for (int tooLong : new int[] {1, 2}) {
      byte[] whole = Files.readAllBytes(files.get(tooLong));
      Files.write(files.get(tooLong), Arrays.copyOf(whole, (int) size + 4096));
    }
    try (StorageListener listener = StorageListener.start(taking(size), events)) {
      SendResult first = send(listener.port(), 1, files);
      SendResult again = send(listener.port(), 0, files);

      assertEquals(3, first.sent(), events.toString());
      assertEquals(
          List.of(files.get(1).toString(), files.get(2).toString()),
          first.failures().stream().map(SendResult.Failure::file).toList());
      assertEquals(3, again.sentBefore());
      assertEquals(2, again.failures().size());
    }
  }

  @Test
  void aPeerThatEndsAtEveryObjectIsLeftAloneAfterSome() throws Exception {
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 30);
    try (StorageListener listener = StorageListener.start(taking(10), events)) {
      SendResult result = send(listener.port(), 0, files);

      assertEquals(30, result.failures().size());
      long calls = events.toString().split("is longer than 10 bytes", -1).length - 1L;
      assertTrue(calls >= 2 && calls <= 12, calls + " calls");
    }
  }

  @Test
  void aFileThatGoesAwayIsNoFaultOfTheConnection() throws Exception {
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 3);
    try (StorageListener listener = StorageListener.start(taking(1 << 24), events)) {
      CallerSettings caller = Peers.to(listener.port());
      SendResult result =
          StorageSender.send(
              caller,
              files,
              Optional.empty(),
              events,
              object -> {
                try {
                  Files.deleteIfExists(files.get(1));
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });

      assertEquals(2, result.sent(), events.toString());
      assertEquals(1, result.failures().size());
      assertEquals(files.get(1).toString(), result.failures().get(0).file());
      assertTrue(result.failures().get(0).reason().startsWith("cannot be read"), events.toString());
    }
  }
}
