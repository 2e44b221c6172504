package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.UnaryOperator;
import org.isopach.dicom.data.TransferSyntax;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Corners of PS3.7 and PS3.8: what must be tolerated, and what must not. */
@Timeout(900)
class ProtocolTest {
  private static final int USER_ITEM = 0x50;

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();
  private StorageListener listener;

  @BeforeEach
  void start() throws IOException {
    listener = Peers.listening(folder, Peers.PATIENCE, events);
  }

  @AfterEach
  void isAlive() throws Exception {
    Peers.awaitEcho(listener.port());
    listener.close();
  }

  /** PS3.8, 9.3.2: titles are padded with spaces; NULs are met, too. */
  @Test
  void takesTitlesAndUidsPaddedWithNul() throws Exception {
    byte[] answer =
        ask(
            request -> {
              byte[] padded = request.clone();
              for (int at = 4; at < 36; at++) {
                padded[at] = padded[at] == ' ' ? 0 : padded[at];
              }
              return padded;
            });

    assertEquals(Pdu.ASSOCIATE_AC, answer[0]);
    String padded = RawPeer.TOMOGRAPHY + "\0";
    try (RawPeer peer = new RawPeer(listener.port())) {
      answer = peer.associate(Peers.AET, padded);
      assertEquals(0, decode(answer).contexts().get(0).result());
    }
  }

  /** PS3.8, 9.3.1: items that are not recognised are ignored; so are sub-items. */
  @Test
  void ignoresUnknownItems() throws Exception {
    byte[] answer =
        ask(
            request -> {
              ByteArrayOutputStream out = new ByteArrayOutputStream();
              int user = indexOf(request, new byte[] {USER_ITEM, 0});
              out.writeBytes(Arrays.copyOf(request, user));
              out.writeBytes(new byte[] {0x7a, 0, 0, 3, 1, 2, 3});
              byte[] inside = Arrays.copyOfRange(request, user + 4, request.length);
              byte[] more = {0x53, 0, 0, 4, 0, 1, 0, 1, 0x58, 0, 0, 2, 1, 1, 0x7f, 0, 0, 0};
              int length = inside.length + more.length;
              out.writeBytes(new byte[] {USER_ITEM, 0, (byte) (length >> 8), (byte) length});
              out.writeBytes(more);
              out.writeBytes(inside);
              return out.toByteArray();
            });

    assertEquals(Pdu.ASSOCIATE_AC, answer[0]);
    assertEquals(0, decode(answer).contexts().get(0).result());
  }

  /** PS3.8, table 9-21. */
  @Test
  void rejectsOtherApplicationContextsAndVersions() throws Exception {
    byte[] context =
        ask(
            request ->
                latin(latin(request).replace("1.2.840.10008.3.1.1.1", "1.2.840.10008.3.1.1.2")));
    byte[] version =
        ask(
            request -> {
              byte[] other = request.clone();
              other[1] = 2;
              return other;
            });

    assertArrayEquals(new byte[] {Pdu.ASSOCIATE_RJ, 0, 1, 1, 2}, context);
    assertArrayEquals(new byte[] {Pdu.ASSOCIATE_RJ, 0, 1, 2, 2}, version);
  }

  /** PS3.8, 9.3.2.2: numbers of contexts are odd, 1 to 255, each of its own; there is one. */
  @ParameterizedTest
  @ValueSource(strings = {"", "2", "0", "1 1"})
  void abortsOnWrongNumbersOfContexts(String numbers) throws Exception {
    List<PresentationContext> contexts =
        Arrays.stream(numbers.split(" ", -1))
            .filter(number -> !number.isEmpty())
            .map(number -> context(Integer.parseInt(number)))
            .toList();
    try (RawPeer peer = new RawPeer(listener.port())) {
      peer.pdu(
          Pdu.ASSOCIATE_RQ,
          AssociateCodec.encode(
              new AssociateBody(Peers.AET, "TERN", contexts, 0, List.of()), false));

      assertEquals(Pdu.ABORT, peer.read()[0]);
    }
  }

  /** PS3.8, D.1: the longest P-DATA is kept to, for commands too; 0 is no limit. */
  @ParameterizedTest
  @ValueSource(longs = {0, 8, 21, 4294967295L})
  void keepsToTheLongestDataOfThePeer(long limit) throws Exception {
    try (RawPeer peer = new RawPeer(listener.port())) {
      peer.pdu(
          Pdu.ASSOCIATE_RQ,
          AssociateCodec.encode(
              new AssociateBody(Peers.AET, "TERN", List.of(context(255)), limit, List.of()),
              false));
      assertEquals(Pdu.ASSOCIATE_AC, peer.read()[0]);
      peer.value(255, 3, echo());

      ByteArrayOutputStream command = new ByteArrayOutputStream();
      boolean last = false;
      while (!last) {
        byte[] unit = peer.read();
        assertTrue(limit == 0 || unit.length - 1 <= limit, unit.length + " bytes");
        assertEquals(0, unit.length % 2 - 1, "fragments are even, PS3.8, annex E");
        last = (unit[6] & 2) != 0;
        command.write(unit, 7, unit.length - 7);
      }
      assertEquals(0, Command.decode(command.toByteArray()).number(Command.STATUS).orElseThrow());
    }
  }

  @Test
  void abortsWhereThePeerTakesNothing() throws Exception {
    try (RawPeer peer = new RawPeer(listener.port())) {
      peer.pdu(
          Pdu.ASSOCIATE_RQ,
          AssociateCodec.encode(
              new AssociateBody(Peers.AET, "TERN", List.of(context(1)), 7, List.of()), false));
      assertEquals(Pdu.ASSOCIATE_AC, peer.read()[0]);
      assertEquals(Pdu.ABORT, peer.read()[0]);
    }
  }

  /** PS3.8, annex E: a command may be cut anywhere, and one unit may hold several pieces. */
  @Test
  void takesCommandsInPieces() throws Exception {
    byte[] echo = echo();
    try (RawPeer peer = ready()) {
      for (byte one : echo) {
        peer.value(1, 1, new byte[] {one});
      }
      peer.value(1, 3, new byte[0]);
      assertEquals(0, peer.status());

      ByteBuffer both = ByteBuffer.allocate(echo.length + 12);
      both.putInt(7).put((byte) 1).put((byte) 1).put(echo, 0, 5);
      both.putInt(echo.length - 3).put((byte) 1).put((byte) 3).put(echo, 5, echo.length - 5);
      peer.pdu(Pdu.P_DATA, both.array());
      assertEquals(0, peer.status());
    }
  }

  /** PS3.7, 9.3.2.3: it may come when what it cancels is done. It has no answer. */
  @Test
  void ignoresACancellation() throws Exception {
    try (RawPeer peer = ready()) {
      peer.value(
          1,
          3,
          Command.of(Command.C_CANCEL_RQ)
              .with(Command.RESPONDED_TO, 7)
              .with(Command.DATA_SET_TYPE, Command.NO_DATA_SET)
              .encode());
      peer.value(1, 3, echo());

      assertEquals(0, peer.status());
    }
  }

  /** PS3.7, 6.3.1: command sets are implicit little endian, whatever the context. */
  @Test
  void abortsOnACommandInAnotherEncoding() throws Exception {
    try (RawPeer peer = ready()) {
      peer.value(
          1,
          3,
          java.util.HexFormat.of()
              .parseHex("00000001" + "55530200" + "3000" + "00000008" + "55530200" + "0101"));

      assertEquals(Pdu.ABORT, peer.read()[0]);
    }
  }

  @Test
  void abortsOnAReleaseWithinAMessage() throws Exception {
    try (RawPeer peer = ready()) {
      peer.value(1, 1, Arrays.copyOf(echo(), 5));
      peer.pdu(Pdu.RELEASE_RQ, new byte[4]);

      assertEquals(Pdu.ABORT, peer.read()[0]);
    }
  }

  /** What a peer accepts must be among what was proposed to it. */
  @Test
  void refusesAnAnswerThatAcceptsSomethingElse() throws Exception {
    ExecutorService peer = Executors.newSingleThreadExecutor();
    try (ServerSocket server = new ServerSocket(0)) {
      Future<byte[]> heard =
          peer.submit(
              () -> {
                try (RawPeer raw = new RawPeer(server.accept())) {
                  raw.accept(TransferSyntax.EXPLICIT_BIG);
                  return raw.read();
                }
              });

      IOException said =
          assertThrows(
              IOException.class, () -> StorageSender.echo(Peers.to(server.getLocalPort())));
      assertTrue(said.getMessage().contains("what was not proposed"), said.getMessage());
      assertEquals(Pdu.ABORT, heard.get()[0]);
    } finally {
      peer.shutdownNow();
    }
  }

  private RawPeer ready() throws IOException {
    RawPeer peer = new RawPeer(listener.port());
    assertEquals(Pdu.ASSOCIATE_AC, peer.associate(Peers.AET, Uids.VERIFICATION)[0]);
    return peer;
  }

  private byte[] ask(UnaryOperator<byte[]> change) throws IOException {
    try (RawPeer peer = new RawPeer(listener.port())) {
      peer.pdu(Pdu.ASSOCIATE_RQ, change.apply(request(List.of(context(1)))));
      return peer.read();
    }
  }

  private static byte[] request(List<PresentationContext> contexts) {
    return AssociateCodec.encode(
        new AssociateBody(Peers.AET, "TERN", contexts, 0, List.of()), false);
  }

  private static AssociateBody decode(byte[] answer) throws AssociationException {
    return AssociateCodec.decode(ByteBuffer.wrap(answer, 1, answer.length - 1).slice());
  }

  private static PresentationContext context(int id) {
    return new PresentationContext(
        id, Uids.VERIFICATION, List.of(TransferSyntax.EXPLICIT_LITTLE.uid()), 0);
  }

  private static byte[] echo() {
    return Command.of(Command.C_ECHO_RQ)
        .withUid(Command.AFFECTED_SOP_CLASS, Uids.VERIFICATION)
        .with(Command.MESSAGE_ID, 7)
        .with(Command.DATA_SET_TYPE, Command.NO_DATA_SET)
        .encode();
  }

  private static int indexOf(byte[] bytes, byte[] part) {
    return latin(bytes).indexOf(latin(part), 68);
  }

  private static String latin(byte[] bytes) {
    return new String(bytes, StandardCharsets.ISO_8859_1);
  }

  private static byte[] latin(String text) {
    return text.getBytes(StandardCharsets.ISO_8859_1);
  }
}
