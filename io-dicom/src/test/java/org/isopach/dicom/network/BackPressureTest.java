package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A disk that stands still holds senders back; nothing piles up in memory. */
@Timeout(900)
class BackPressureTest {
  private static final int PLACES = 4;
  private static final int PIECE = 128 * 1024 - 6;
  private static final int PIECES = 320;
  private static final long MOST_ON_THE_WAY = 16L << 20;
  private static final int SEND_BUFFER = 1 << 18;
  private static final long MOST_HEAP = 12L << 20;

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();
  private final CountDownLatch diskMoves = new CountDownLatch(1);
  private final CountDownLatch begun = new CountDownLatch(PLACES);
  private final AtomicLong taken = new AtomicLong();

  /** A folder on a disk that stands still until it is told to move. */
  private final class StandingDisk extends ReceivedObjects {
    StandingDisk(Path folder, FileChannel lock) {
      super(folder, lock);
    }

    @Override
    PartWriter writer(Path part, byte[] meta) {
      return new PartWriter(part, meta) {
        @Override
        void write(ByteBuffer piece) {
          try {
            diskMoves.await();
          } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
          }
          super.write(piece);
        }
      };
    }
  }

  @Test
  void memoryDoesNotGrowWithWhatPeersSend() throws Exception {
    ExecutorService peers = Executors.newFixedThreadPool(PLACES);
    ListenerSettings usual = ListenerSettings.usual(0, Peers.AET, folder);
    ListenerSettings few =
        new ListenerSettings(
            0,
            Peers.AET,
            folder,
            usual.callers(),
            usual.addresses(),
            PLACES,
            usual.mostObjectBytes(),
            usual.patience(),
            usual.tls(),
            false);
    try (StorageListener listener =
        StorageListener.start(
            few, events, new StandingDisk(folder, ReceivedObjects.lock(folder)))) {
      long before = heap();
      List<Future<Integer>> statuses = new ArrayList<>();
      for (int i = 0; i < PLACES; i++) {
        statuses.add(peers.submit(sender(listener.port())));
      }
      long held = awaitStandstill();

      assertTrue(held < PLACES * MOST_ON_THE_WAY, held + " bytes were taken from the senders");
      assertTrue(heap() - before < MOST_HEAP, heap() - before + " bytes of heap");
      try (RawPeer late = new RawPeer(listener.port())) {
        assertArrayEquals(
            new byte[] {Pdu.ASSOCIATE_RJ, 0, 2, 3, 2},
            late.associate(Peers.AET, RawPeer.TOMOGRAPHY));
      }
      diskMoves.countDown();
      for (Future<Integer> status : statuses) {
        assertEquals(StoreStatus.NOT_UNDERSTOOD, status.get(), "zeros are no object");
      }
      assertEquals((long) PLACES * PIECES * PIECE, taken.get(), "every sender could go on");
    } finally {
      diskMoves.countDown();
      peers.shutdownNow();
    }
    assertEquals(List.of(), Peers.unfinished(folder));
  }

  private Callable<Integer> sender(int port) {
    return () -> {
      byte[] piece = new byte[PIECE];
      try (RawPeer peer = new RawPeer(narrow(port))) {
        peer.associate(Peers.AET, RawPeer.TOMOGRAPHY);
        peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
        for (int i = 0; i < PIECES; i++) {
          peer.value(1, i == PIECES - 1 ? 2 : 0, piece);
          taken.addAndGet(PIECE);
          if (i == 0) {
            begun.countDown();
          }
        }
        return peer.status();
      }
    };
  }

  /** Returns a connection whose sending side buffers little, however the system is tuned. */
  private static Socket narrow(int port) throws IOException {
    Socket socket = new Socket();
    socket.setSendBufferSize(SEND_BUFFER);
    socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
    return socket;
  }

  /**
   * Waits until each sender has got a piece off and then none for half a second, and returns what
   * went before.
   */
  private long awaitStandstill() throws InterruptedException {
    assertTrue(begun.await(120, TimeUnit.SECONDS), "not every sender got a piece off");
    long last = -1;
    while (last < PIECE || taken.get() != last) {
      last = taken.get();
      TimeUnit.MILLISECONDS.sleep(500);
    }
    return last;
  }

  private static long heap() throws IOException {
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    return runtime.totalMemory() - runtime.freeMemory();
  }
}
