package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.peer.Ports;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Storage commitment between our two sides, and with a peer made of bytes. */
class CommitmentTest {
  private static final int COUNT = 5;

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();

  @Test
  void saysWhichObjectsAreKeptAndWhyOthersAreNot() throws Exception {
    try (StorageListener listener = listener(0, List.of())) {
      List<SentObject> asked = fill(listener.port());
      assertEquals(new CommitResult(COUNT, List.of()), ask(listener.port(), asked));

      List<Path> kept = Peers.kept(folder.resolve("out"));
      Files.delete(kept.get(0));
      byte[] bytes = Files.readAllBytes(kept.get(1));
      Files.write(kept.get(1), java.util.Arrays.copyOf(bytes, bytes.length - 3));
      asked.set(2, new SentObject("file 2", "1.2.840.10008.5.1.4.1.1.66", Peers.uid(2)));

      CommitResult result = ask(listener.port(), asked);
      assertEquals(COUNT - 3, result.committed());
      assertEquals(
          List.of(
              new SendResult.Failure("file 0", "not committed: no such object there (0112)"),
              new SendResult.Failure("file 1", "not committed: processing failure (0110)"),
              new SendResult.Failure("file 2", "not committed: another SOP class there (0119)")),
          result.failures());
      assertTrue(events.hear("2 objects committed, 3 not"), events.toString());
    }
  }

  @Test
  void reportsOnAConnectionOfItsOwnToWhoseAddressIsKnown() throws Exception {
    int port = Ports.free();
    Destination us = new Destination("TERN", Peers.HOST, port);
    try (StorageListener listener = listener(0, List.of(us))) {
      List<SentObject> asked = fill(listener.port());
      CallerSettings caller = Peers.to(listener.port());

      CommitResult result =
          CommitmentClient.commit(
              caller, asked, Optional.of(CommitmentClient.port(caller, port, false)), events);

      assertEquals(new CommitResult(COUNT, List.of()), result, events.toString());
    }
  }

  @Test
  void asksForManyAndForNothingTwice() throws Exception {
    try (StorageListener listener = listener(0, List.of())) {
      List<SentObject> asked = fill(listener.port());
      for (int i = 0; i < 2500; i++) {
        asked.add(new SentObject("lost " + i, RawPeer.TOMOGRAPHY, "2.25.9" + i));
      }
      asked.add(asked.get(0));

      CommitResult result = ask(listener.port(), asked);

      assertEquals(COUNT + 1, result.committed());
      assertEquals(2500, result.failures().size());
    }
  }

  /** The bytes were written by hand after PS3.7, 10.3.4, in implicit little endian. */
  @Test
  void answersRequestsOfOthers() throws Exception {
    try (StorageListener listener = listener(0, List.of());
        RawPeer peer = new RawPeer(listener.port())) {
      fill(listener.port());
      peer.associate(Peers.AET, Uids.COMMITMENT, TransferSyntax.IMPLICIT_LITTLE);
      peer.value(1, 3, action("1.2.840.10008.1.20.1.1", 1));
      String transaction = "08009511 06000000" + text("2.25.5");
      String known =
          "08005011 20000000"
              + text(RawPeer.TOMOGRAPHY)
              + "08005511 0f000000"
              + text(Peers.uid(0)).replaceFirst("00$", "");
      String lost =
          "08005011 20000000" + text(RawPeer.TOMOGRAPHY) + "08005511 06000000" + text("2.25.6");
      peer.value(
          1,
          2,
          hex(transaction + "08009911 ffffffff" + item(known) + item(lost) + "feffdde0 00000000"));

      assertEquals(StoreStatus.SUCCESS, peer.status());
      Command report = peer.command();
      assertEquals(Command.N_EVENT_REPORT_RQ, report.number(Command.FIELD).orElseThrow());
      assertEquals(2, report.number(Command.EVENT_TYPE).orElseThrow(), "failures exist");
      assertEquals("1.2.840.10008.1.20.1.1", report.text(Command.AFFECTED_SOP_INSTANCE));
      assertEquals(
          spaced(
              transaction
                  + "08009811 48000000 feff00e0 40000000 08005011 20000000"
                  + text(RawPeer.TOMOGRAPHY)
                  + "08005511 06000000"
                  + text("2.25.6")
                  + "08009711 02000000 1201"
                  + "08009911 48000000 feff00e0 40000000 08005011 20000000"
                  + text(RawPeer.TOMOGRAPHY)
                  + "08005511 10000000"
                  + text(Peers.uid(0))),
          HexFormat.of().formatHex(peer.piece()));
      peer.value(
          1, 3, CommitmentMessages.heard(report, 0).with(Command.DATA_SET_TYPE, 0x0101).encode());
      peer.pdu(Pdu.RELEASE_RQ, new byte[4]);
      assertEquals(Pdu.RELEASE_RP, peer.read()[0]);
    }
    assertTrue(!events.toString().contains("without taking"), events.toString());
  }

  @ParameterizedTest
  @CsvSource({
    "1.2.840.10008.1.20.1.1, 2, 0800951106000000322e32352e35, 0123",
    "1.2.840.10008.1.20.1.2, 1, 0800951106000000322e32352e35, 0112",
    "1.2.840.10008.1.20.1.1, 1, 0800951106000000322e32352e35, 0115",
    "1.2.840.10008.1.20.1.1, 1, 08009511060000, 0115",
    "1.2.840.10008.1.20.1.1, 1, 08009511f0ffff7f322e, 0115",
    "1.2.840.10008.1.20.1.1, 1, 08009911fffffffffeff00e0ffffffff, 0115",
    "1.2.840.10008.1.20.1.1, 1, 0800951106000000322e32352e3508009911080000000feff00e000000000, 0115",
  })
  void refusesWhatItCannotAnswer(String instance, int type, String data, String status)
      throws Exception {
    try (StorageListener listener = listener(0, List.of());
        RawPeer peer = new RawPeer(listener.port())) {
      peer.associate(Peers.AET, Uids.COMMITMENT, TransferSyntax.IMPLICIT_LITTLE);
      for (int time = 0; time < 2; time++) {
        peer.value(1, 3, action(instance, type));
        peer.value(1, 2, hex(data.length() % 2 == 0 ? data : data + "0"));
        assertEquals(Integer.parseInt(status, 16), peer.status(), "the association goes on");
      }
    }
    assertTrue(events.hear("refused to commit"), events.toString());
  }

  @Test
  void refusesSequencesWithoutEnd() throws Exception {
    String nested = "08009911 ffffffff feff00e0 ffffffff".replace(" ", "").repeat(100_000);
    try (StorageListener listener = listener(0, List.of());
        RawPeer peer = new RawPeer(listener.port())) {
      peer.associate(Peers.AET, Uids.COMMITMENT, TransferSyntax.IMPLICIT_LITTLE);
      peer.value(1, 3, action("1.2.840.10008.1.20.1.1", 1));
      byte[] bytes = hex(nested);
      for (int at = 0; at < bytes.length; at += 100_000) {
        byte[] piece =
            java.util.Arrays.copyOfRange(bytes, at, Math.min(bytes.length, at + 100_000));
        peer.value(1, at + piece.length == bytes.length ? 2 : 0, piece);
      }
      assertEquals(0x0115, peer.status());
    }
  }

  @Test
  void saysThatNobodyTookTheReport() throws Exception {
    try (StorageListener listener = listener(0, List.of());
        RawPeer peer = new RawPeer(listener.port())) {
      peer.associate(Peers.AET, Uids.COMMITMENT, TransferSyntax.IMPLICIT_LITTLE);
      peer.value(1, 3, action("1.2.840.10008.1.20.1.1", 1));
      peer.value(
          1,
          2,
          hex(
              "0800951106000000"
                  + text("2.25.5")
                  + "08009911 18000000 feff00e0 10000000"
                  + "08005011 02000000 3100 08005511 00000000"));
      peer.value(1, 3, action("1.2.840.10008.1.20.1.1", 1));
      peer.value(
          1,
          2,
          hex(
              "0800951106000000"
                  + text("2.25.5")
                  + "08009911 1c000000 feff00e0 14000000"
                  + "08005011 02000000 3100 08005511 02000000 3200"));
      assertEquals(0x0115, peer.status(), "an object without an instance");
      assertEquals(StoreStatus.SUCCESS, peer.status());
      peer.pdu(Pdu.RELEASE_RQ, new byte[4]);
    }
    assertTrue(events.hear("without taking the report"), events.toString());
  }

  private StorageListener listener(int port, List<Destination> commitTo) throws IOException {
    return StorageListener.start(
        ListenerSettings.usual(port, Peers.AET, folder.resolve("out")).committingTo(commitTo),
        events);
  }

  private List<SentObject> fill(int port) throws IOException {
    StorageSender.send(
        Peers.to(port), Peers.objects(folder.resolve("in"), 0, COUNT), Optional.empty(), events);
    List<SentObject> sent = new ArrayList<>();
    for (int i = 0; i < COUNT; i++) {
      sent.add(new SentObject("file " + i, RawPeer.TOMOGRAPHY, Peers.uid(i)));
    }
    return sent;
  }

  private CommitResult ask(int port, List<SentObject> asked) throws IOException {
    return CommitmentClient.commit(Peers.to(port), asked, Optional.empty(), events);
  }

  private static byte[] action(String instance, int type) {
    return Command.of(Command.N_ACTION_RQ)
        .withUid(Command.REQUESTED_SOP_CLASS, Uids.COMMITMENT)
        .with(Command.MESSAGE_ID, 3)
        .with(Command.DATA_SET_TYPE, 1)
        .withUid(Command.REQUESTED_SOP_INSTANCE, instance)
        .with(Command.ACTION_TYPE, type)
        .encode();
  }

  /** An item of undefined length. */
  private static String item(String content) {
    return "feff00e0 ffffffff" + content + "feff0de0 00000000";
  }

  private static String text(String uid) {
    String even = uid.length() % 2 == 0 ? uid : uid + "\0";
    return HexFormat.of().formatHex(even.getBytes(java.nio.charset.StandardCharsets.US_ASCII));
  }

  private static String spaced(String hex) {
    return hex.replace(" ", "");
  }

  private static byte[] hex(String hex) {
    return HexFormat.of().parseHex(spaced(hex));
  }
}
