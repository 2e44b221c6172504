package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import org.isopach.dicom.data.TransferSyntax;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Objects that unpack to far more than was sent, several at once, to a listener with 64 MiB. */
class DeflatedBombTest {
  private static final int AT_ONCE = 8;
  private static final int ALMOST_A_THIRD = 20 << 20;
  private static final int TOO_MUCH = 200 << 20;

  @TempDir Path folder;

  @Test
  void takesWhatFitsOneByOneAndRefusesTheRest() throws Exception {
    ListenerProcess listener = ListenerProcess.start(0, folder);
    ExecutorService peers = Executors.newFixedThreadPool(AT_ONCE);
    try {
      byte[] fits = packed(ALMOST_A_THIRD);
      byte[] tooMuch = packed(TOO_MUCH);
      List<Callable<Integer>> calls = new ArrayList<>();
      List<Integer> expected = new ArrayList<>();
      for (int i = 0; i < AT_ONCE; i++) {
        byte[] bomb = i % 2 == 0 ? fits : tooMuch;
        calls.add(() -> status(listener.port(), bomb));
        // What fits is read to its end, and found to name no object.
        expected.add(i % 2 == 0 ? StoreStatus.MISMATCH : StoreStatus.NOT_UNDERSTOOD);
      }
      List<Integer> statuses = new ArrayList<>();
      for (Future<Integer> one : peers.invokeAll(calls)) {
        statuses.add(one.get());
      }

      assertEquals(expected, statuses);
      Peers.awaitEcho(listener.port());
      assertEquals(List.of(), Peers.kept(folder));
      assertEquals(List.of(), Peers.unfinished(folder));
    } finally {
      peers.shutdownNow();
      listener.kill();
    }
  }

  private static int status(int port, byte[] bomb) throws Exception {
    try (RawPeer peer = new RawPeer(port)) {
      peer.associate(Peers.AET, RawPeer.TOMOGRAPHY, TransferSyntax.DEFLATED_LITTLE);
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
      for (int at = 0; at < bomb.length; at += 65536) {
        int end = Math.min(bomb.length, at + 65536);
        peer.value(1, end == bomb.length ? 2 : 0, Arrays.copyOfRange(bomb, at, end));
      }
      return peer.status();
    }
  }

  /** One long text of zeros. */
  private static byte[] packed(int length) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (DeflaterOutputStream deflater =
        new DeflaterOutputStream(out, new Deflater(Deflater.BEST_SPEED, true))) {
      deflater.write(new byte[] {0x20, 0, 0, 0x40, 'U', 'T', 0, 0});
      for (int shift = 0; shift < 32; shift += 8) {
        deflater.write(length >> shift);
      }
      byte[] zeros = new byte[1 << 20];
      for (int done = 0; done < length; done += zeros.length) {
        deflater.write(zeros);
      }
    }
    return out.toByteArray();
  }
}
