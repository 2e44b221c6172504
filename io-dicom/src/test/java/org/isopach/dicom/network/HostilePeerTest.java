package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Whatever a peer does, the listener refuses it, says so, keeps no part of it and goes on. */
class HostilePeerTest {
  private static final int LARGEST = 64 * 1024;

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();
  private StorageListener listener;

  @BeforeEach
  void start() throws IOException {
    ListenerSettings usual = ListenerSettings.usual(0, Peers.AET, folder);
    listener =
        StorageListener.start(
            new ListenerSettings(
                0,
                Peers.AET,
                folder,
                Set.of("TERN"),
                List.of(AddressRange.of("127.0.0.0/8"), AddressRange.of("::1")),
                3,
                LARGEST,
                Peers.PATIENCE,
                usual.tls(),
                false),
            events);
  }

  @AfterEach
  void isAliveAndHasKeptNothing() throws Exception {
    Peers.awaitEcho(listener.port());
    listener.close();
    assertEquals(List.of(), Peers.kept(folder), "nothing is kept");
    assertEquals(List.of(), Peers.unfinished(folder), "nothing is left unfinished");
  }

  @Test
  void rejectsAWrongTitle() throws Exception {
    try (RawPeer peer = new RawPeer(listener.port())) {
      byte[] answer = peer.associate("ELSEWHERE", RawPeer.TOMOGRAPHY);

      // PS3.8, table 9-21: rejected permanently, by the service user, called title not recognised.
      assertArrayEquals(new byte[] {Pdu.ASSOCIATE_RJ, 0, 1, 1, 7}, answer);
    }
    assertTrue(events.hear("it called ELSEWHERE"), events.toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"1.2.826.0.1.9999.1", "1.2.840.10008.5.1.4.1.2.2.1", ""})
  void doesNotTakeAnUnknownAbstractSyntax(String sopClass) throws Exception {
    try (RawPeer peer = new RawPeer(listener.port())) {
      byte[] answer = peer.associate(Peers.AET, sopClass);
      assertEquals(Pdu.ASSOCIATE_AC, answer[0]);
      AssociateBody body =
          AssociateCodec.decode(ByteBuffer.wrap(answer, 1, answer.length - 1).slice());
      assertEquals(PresentationContext.ABSTRACT_SYNTAX_UNKNOWN, body.contexts().get(0).result());
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");

      assertEquals(Pdu.ABORT, peer.read()[0]);
    }
    assertTrue(events.hear("context 1 was not agreed on"), events.toString());
  }

  @Test
  void leavesNothingOfAnAbortedObject() throws Exception {
    try (RawPeer peer = ready()) {
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
      peer.value(1, 0, dataSet("2.25.1", 100));
      peer.pdu(Pdu.ABORT, new byte[4]);
    }
    assertTrue(events.hear("the peer aborted"), events.toString());
  }

  @Test
  void leavesNothingOfALostConnection() throws Exception {
    try (RawPeer peer = ready()) {
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
      peer.value(1, 0, dataSet("2.25.1", 100));
      peer.bytes(new byte[] {Pdu.P_DATA, 0, 0, 0});
    }
    assertTrue(events.hear("ended within a protocol data unit"), events.toString());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "04 00 00 00 00 02 00 00",
        "04 00 00 00 00 08 00 00 ff ff 01 03 00 00",
        "04 00 00 00 00 08 ff ff ff ff 01 03 00 00",
        "04 00 00 00 00 06 00 00 00 01 01 03",
        "04 00 00 00 00 08 00 00 00 04 03 03 00 00",
        "04 00 00 00 00 10 00 00 00 0c 01 03 00 00 00 01 ff ff ff ff 00 00",
        "04 00 7f ff ff ff",
        "04 00 ff ff ff ff",
        "2a 00 00 00 00 00",
        "01 00 00 00 00 00",
      })
  void abortsOnMalformedUnits(String hex) throws Exception {
    try (RawPeer peer = ready()) {
      peer.bytes(java.util.HexFormat.ofDelimiter(" ").parseHex(hex));

      byte[] answer = peer.read();
      assertEquals(Pdu.ABORT, answer[0]);
      assertEquals(2, answer[3], "by the service provider, PS3.8, table 9-26");
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"01 00 ff ff ff ff", "01 00 00 00 00 04 00 01 00 00", "47 45 54 20 2f 20"})
  void survivesWhatIsNoRequest(String hex) throws Exception {
    try (RawPeer peer = new RawPeer(listener.port())) {
      peer.bytes(java.util.HexFormat.ofDelimiter(" ").parseHex(hex));

      assertEquals(Pdu.ABORT, peer.read()[0]);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"../../etc/passwd", "/tmp/x", "2.25.1/..", "2..25", "a.b", ".", ""})
  void refusesAnInstanceThatIsNoUid(String uid) throws Exception {
    try (RawPeer peer = ready()) {
      peer.storeRequest(RawPeer.TOMOGRAPHY, uid);
      peer.value(1, 2, dataSet("2.25.1", 10));

      assertEquals(StoreStatus.INVALID_INSTANCE, peer.status());
    }
    assertTrue(events.hear("without a sound UID"), events.toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"../../../x", "/tmp/x", "..", ""})
  void refusesAStudyThatIsNoUid(String uid) throws Exception {
    byte[] encoded =
        new String(dataSet("2.25.1", 10), latin())
            .replace("2.25.77", pad(uid, 7))
            .getBytes(latin());
    try (RawPeer peer = ready()) {
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
      peer.value(1, 2, encoded);

      assertEquals(StoreStatus.NOT_UNDERSTOOD, peer.status());
    }
  }

  @Test
  void refusesAnotherObjectThanTheCommandNames() throws Exception {
    try (RawPeer peer = ready()) {
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.2");
      peer.value(1, 2, dataSet("2.25.1", 10));

      assertEquals(StoreStatus.MISMATCH, peer.status());
    }
  }

  @Test
  void refusesAValueThatClaimsMoreThanThereIs() throws Exception {
    byte[] encoded = dataSet("2.25.1", 10);
    ByteBuffer.wrap(encoded).putInt(encoded.length - 14, 0xf0ffff7f);
    try (RawPeer peer = ready()) {
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
      peer.value(1, 2, encoded);

      assertEquals(StoreStatus.NOT_UNDERSTOOD, peer.status());
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
      peer.value(1, 2, new byte[0]);
      assertEquals(StoreStatus.NOT_UNDERSTOOD, peer.status(), "the association goes on");
    }
  }

  /**
   * Two bytes of length for each level would do; without a bound the walk would run out of stack.
   */
  @Test
  void refusesSequencesNestedWithoutEnd() throws Exception {
    String opened = "\u0008\u0000@\u0011SQ\0\0\u00ff\u00ff\u00ff\u00ff";
    String item = "\u00fe\u00ff\u0000\u00e0\u00ff\u00ff\u00ff\u00ff";
    String whole = new String(dataSet("2.25.1", 10), latin());
    int at = whole.indexOf(" \0\r\0UI");
    byte[] encoded =
        (whole.substring(0, at) + (opened + item).repeat(3000) + whole.substring(at))
            .getBytes(latin());
    assertTrue(encoded.length < LARGEST, "it is refused for its depth, not its length");
    try (RawPeer peer = ready()) {
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
      peer.value(1, 2, encoded);

      assertEquals(StoreStatus.NOT_UNDERSTOOD, peer.status());
    }
    assertTrue(events.hear("nested more than"), events.toString());
  }

  @Test
  void abortsAnObjectThatIsTooLong() throws Exception {
    try (RawPeer peer = ready()) {
      peer.storeRequest(RawPeer.TOMOGRAPHY, "2.25.1");
      peer.value(1, 0, dataSet("2.25.1", 10));
      // The last piece alone is too much: nothing is still on its way when the answer comes.
      for (int i = 0; i < 4; i++) {
        peer.value(1, 0, new byte[LARGEST / 4]);
      }

      assertEquals(Pdu.ABORT, peer.read()[0]);
    }
    assertTrue(events.hear("longer than " + LARGEST), events.toString());
  }

  @Test
  void abortsACommandWithoutEnd() throws Exception {
    try (RawPeer peer = ready()) {
      for (int i = 0; i < 5; i++) {
        peer.value(1, 1, new byte[4096]);
      }

      assertEquals(Pdu.ABORT, peer.read()[0]);
    }
  }

  @Test
  void rejectsMoreAssociationsThanItHasPlacesFor() throws Exception {
    try (RawPeer first = ready();
        RawPeer second = ready();
        RawPeer third = ready();
        RawPeer fourth = new RawPeer(listener.port())) {
      byte[] answer = fourth.associate(Peers.AET, RawPeer.TOMOGRAPHY);

      // PS3.8, table 9-21: rejected for the moment, local limit exceeded.
      assertArrayEquals(new byte[] {Pdu.ASSOCIATE_RJ, 0, 2, 3, 2}, answer);
      for (RawPeer peer : List.of(first, second, third)) {
        peer.pdu(Pdu.RELEASE_RQ, new byte[4]);
        assertEquals(Pdu.RELEASE_RP, peer.read()[0]);
      }
    }
  }

  private RawPeer ready() throws IOException {
    RawPeer peer = new RawPeer(listener.port());
    assertEquals(Pdu.ASSOCIATE_AC, peer.associate(Peers.AET, RawPeer.TOMOGRAPHY)[0]);
    return peer;
  }

  /** A data set in explicit little endian whose last element has 10 bytes. */
  private static byte[] dataSet(String sopInstance, int lines) {
    StringBuilder text = new StringBuilder();
    element(text, 0x0008, 0x16, "UI", RawPeer.TOMOGRAPHY);
    element(text, 0x0008, 0x18, "UI", sopInstance);
    element(text, 0x0020, 0x0d, "UI", "2.25.77");
    element(text, 0x0020, 0x0e, "UI", "2.25.78");
    element(text, 0x0020, 0x4000, "LT", "line ".repeat(lines));
    text.append("\u00e0\u007f\u0010\u0000OB\0\0\n\0\0\0").append("\0".repeat(10));
    return text.toString().getBytes(latin());
  }

  private static void element(StringBuilder out, int group, int element, String vr, String value) {
    String even = value.length() % 2 == 0 ? value : value + (vr.equals("UI") ? "\0" : " ");
    for (int number : new int[] {group, element}) {
      out.append((char) (number & 0xff)).append((char) (number >> 8));
    }
    out.append(vr).append((char) (even.length() & 0xff)).append((char) (even.length() >> 8));
    out.append(even);
  }

  private static String pad(String text, int length) {
    return (text + "\0".repeat(length)).substring(0, Math.max(length, 0));
  }

  private static java.nio.charset.Charset latin() {
    return java.nio.charset.StandardCharsets.ISO_8859_1;
  }
}
