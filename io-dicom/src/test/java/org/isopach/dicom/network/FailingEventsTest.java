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

  /** Reports that fail by a fault of our own take no place from later ones for good. */
  @Test
  void goesOnAfterReportsThatFailed() throws Exception {
    HeardEvents events = new HeardEvents();
    Destination nobody = new Destination("TERN", "127.0.0.1", 1);
    ListenerSettings settings =
        ListenerSettings.usual(0, Peers.AET, folder).committingTo(List.of(nobody));
    Commitment request =
        new Commitment(
            "2.25.1", List.of(new InstanceName(RawPeer.TOMOGRAPHY, "2.25.2")), List.of());
    try (ReceivedObjects objects = ReceivedObjects.open(folder);
        CommitmentReporter reporter =
            new CommitmentReporter(settings, events, DueReports.open(objects.incoming()))) {
      CommitmentReporter.Place place = reporter.placeFor("TERN").orElseThrow();
      for (int i = 0; i < 70; i++) {
        place.report(
            reserved(place, request),
            () -> {
              throw new IllegalStateException("made to fail");
            });
      }
      assertTrue(events.hear("a fault of our own"), events.toString());
    }
  }

  private static DueReports.Due reserved(CommitmentReporter.Place place, Commitment request)
      throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.MINUTES.toNanos(2);
    while (true) {
      Optional<DueReports.Due> due = place.reserve(request);
      if (due.isPresent()) {
        return due.get();
      }
      assertTrue(System.nanoTime() < end, "no place is free");
      Thread.sleep(10);
    }
  }

  private static void call(int port) throws IOException {
    try (Socket caller = new Socket(InetAddress.getLoopbackAddress(), port)) {
      caller.setSoTimeout((int) Peers.PATIENCE.toMillis());
    }
  }
}
