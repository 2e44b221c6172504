package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.isopach.dicom.data.TransferSyntax;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Peers that give or take bytes one by one, or not at all, are cut off. */
@Timeout(900)
class SlowPeerTest {
  /** Long enough for a busy machine to open an association in. */
  private static final Duration PATIENCE = Duration.ofSeconds(3);

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();
  private StorageListener listener;

  @BeforeEach
  void start() throws IOException {
    listener = Peers.listening(folder, PATIENCE, events);
  }

  @AfterEach
  void isAlive() throws Exception {
    Peers.awaitEcho(listener.port());
    listener.close();
  }

  /**
   * PS3.8, 9.1.4: who has a connection must ask for an association in time, drop by drop or not.
   */
  @Test
  void cutsOffWhoDripsARequest() throws Exception {
    byte[] request = request();
    try (RawPeer peer = new RawPeer(listener.port())) {
      peer.bytes(new byte[] {Pdu.ASSOCIATE_RQ, 0, 0, 0, 0, (byte) request.length});
      assertThrows(
          IOException.class,
          () -> {
            for (int i = 0; i < request.length - 1; i++) {
              peer.bytes(new byte[] {request[i]});
              Thread.sleep(PATIENCE.toMillis() / 5);
            }
          });
    }
    assertTrue(events.hear("cut off, too slow", "silent for too long"), events.toString());
  }

  @Test
  void cutsOffWhoDripsAUnit() throws Exception {
    try (RawPeer peer = ready()) {
      peer.bytes(new byte[] {Pdu.P_DATA, 0, 0, 0, 100, 0});
      assertThrows(
          IOException.class,
          () -> {
            for (int i = 0; i < 100 * 256; i++) {
              peer.bytes(new byte[1]);
              Thread.sleep(PATIENCE.toMillis() / 5);
            }
          });
    }
    assertTrue(events.hear("silent for too long"), events.toString());
  }

  /** Who does not read what it asked for would hold its place for ever. */
  @Test
  void cutsOffWhoDoesNotTakeAnswers() throws Exception {
    byte[] echo = echo();
    try (Socket socket = new Socket()) {
      socket.setReceiveBufferSize(4096);
      socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), listener.port()));
      RawPeer peer = new RawPeer(socket);
      peer.associate(Peers.AET, Uids.VERIFICATION);
      ByteBuffer unit = ByteBuffer.allocate(12 + echo.length);
      unit.put((byte) Pdu.P_DATA).put((byte) 0).putInt(6 + echo.length);
      unit.putInt(2 + echo.length).put((byte) 1).put((byte) 3).put(echo);
      byte[] flood = repeated(unit.array(), 100);
      assertThrows(
          IOException.class,
          () -> {
            while (true) {
              peer.bytes(flood);
            }
          });
    }
    assertTrue(events.hear("cut off, too slow"), events.toString());
  }

  private RawPeer ready() throws IOException {
    RawPeer peer = new RawPeer(listener.port());
    assertEquals(Pdu.ASSOCIATE_AC, peer.associate(Peers.AET, Uids.VERIFICATION)[0]);
    return peer;
  }

  private static byte[] request() {
    PresentationContext context =
        new PresentationContext(
            1, Uids.VERIFICATION, List.of(TransferSyntax.EXPLICIT_LITTLE.uid()), 0);
    return AssociateCodec.encode(
        new AssociateBody(Peers.AET, "TERN", List.of(context), 0, List.of()), false);
  }

  private static byte[] echo() {
    return Command.of(Command.C_ECHO_RQ)
        .withUid(Command.AFFECTED_SOP_CLASS, Uids.VERIFICATION)
        .with(Command.MESSAGE_ID, 7)
        .with(Command.DATA_SET_TYPE, Command.NO_DATA_SET)
        .encode();
  }

  private static byte[] repeated(byte[] bytes, int times) {
    ByteBuffer all = ByteBuffer.allocate(bytes.length * times);
    for (int i = 0; i < times; i++) {
      all.put(bytes);
    }
    return all.array();
  }
}
