package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A fault of our own while a connection is taken must not leave a listener deaf. */
class FailingEventsTest {
  @TempDir Path folder;

  @Test
  void goesOnAfterAFaultOfItsOwn() throws Exception {
    CountDownLatch first = new CountDownLatch(1);
    CountDownLatch later = new CountDownLatch(4);
    NetworkEvents failing =
        (kind, line) -> {
          later.countDown();
          if (first.getCount() > 0) {
            first.countDown();
            throw new IllegalStateException("made to fail");
          }
        };
    ListenerSettings usual = ListenerSettings.usual(0, Peers.AET, folder);
    ListenerSettings elsewhere =
        new ListenerSettings(
            0,
            Peers.AET,
            folder,
            Set.of(),
            List.of(AddressRange.of("192.0.2.0/24")),
            1,
            1 << 20,
            usual.patience(),
            Optional.empty(),
            false);
    try (StorageListener listener = StorageListener.start(elsewhere, failing)) {
      for (int i = 0; i < 3; i++) {
        call(listener.port());
      }

      assertTrue(later.await(120, TimeUnit.SECONDS), "later callers were not heard");
    }
  }

  private static void call(int port) throws IOException {
    try (Socket caller = new Socket(InetAddress.getLoopbackAddress(), port)) {
      caller.setSoTimeout((int) Peers.PATIENCE.toMillis());
    }
  }
}
