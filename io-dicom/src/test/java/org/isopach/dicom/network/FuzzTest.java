package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.InstanceIdentity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Streams of valid units with a few bytes changed, by seeds 0, 1, 2 …, both ways. */
@Timeout(900)
class FuzzTest {
  private static final int TO_LISTENER = 2000;
  private static final int TO_CALLER = 1500;

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();

  @Test
  void theListenerLivesAndKeepsNothingHalf() throws Exception {
    byte[] valid = conversation();
    Path out = folder.resolve("out");
    int answered = 0;
    try (StorageListener listener =
        StorageListener.start(ListenerSettings.usual(0, Peers.AET, out), events)) {
      assertTrue(talk(listener.port(), valid) > 0);
      assertEquals(1, listener.size(), "the stream is valid: " + events);
      for (int seed = 0; seed < TO_LISTENER; seed++) {
        byte[] another = latin(latin(valid).replace(Peers.uid(0), Peers.uid(seed + 1)));
        answered += talk(listener.port(), changed(another, seed)) > 0 ? 1 : 0;
      }
      Peers.awaitEcho(listener.port());
    }

    assertTrue(answered > TO_LISTENER / 2, answered + " were answered");
    assertFalse(events.toString().contains("this program failed"), events.toString());
    assertEquals(List.of(), Peers.unfinished(out));
    for (Path file : Peers.kept(out)) {
      InstanceIdentity kept = InstanceIdentity.of(file);
      assertEquals(
          out.resolve(kept.studyUid()).resolve(kept.seriesUid()).resolve(kept.sopUid() + ".dcm"),
          file);
    }
    int kept = Peers.kept(out).size();
    assertTrue(kept > TO_LISTENER / 20 && kept < TO_LISTENER, kept + " were sound as changed");
  }

  @Test
  void callersEndWithAResultOrAReason() throws Exception {
    byte[] valid = answers();
    ExecutorService archive = Executors.newSingleThreadExecutor();
    int found = 0;
    int refused = 0;
    try (ServerSocket server = new ServerSocket(0)) {
      for (int seed = -1; seed < TO_CALLER; seed++) {
        byte[] bytes = seed < 0 ? valid : changed(valid, seed);
        archive.execute(() -> say(server, bytes));
        try {
          new ArchiveClient(Peers.to(server.getLocalPort()), events)
              .find(new StudyQuery("", "1.2.3", ""));
          found++;
        } catch (IOException e) {
          refused++;
        }
        assertTrue(seed >= 0 || found == 1, "the answers are valid");
      }
    } finally {
      archive.shutdownNow();
    }

    assertTrue(found > 1 && refused > TO_CALLER / 4, found + " found, " + refused + " refused");
  }

  private static void say(ServerSocket server, byte[] bytes) {
    try (Socket socket = server.accept()) {
      socket.getOutputStream().write(bytes);
      socket.shutdownOutput();
      socket.getInputStream().transferTo(java.io.OutputStream.nullOutputStream());
    } catch (IOException e) {
      // The caller may be gone already: it is judged by what it says, not by this.
    }
  }

  /** Sends a stream to its end and returns how many bytes came back until the other side closed. */
  private static long talk(int port, byte[] stream) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      socket.setSoTimeout((int) Peers.PATIENCE.toMillis());
      try {
        socket.getOutputStream().write(stream);
        socket.shutdownOutput();
        return socket.getInputStream().transferTo(java.io.OutputStream.nullOutputStream());
      } catch (java.net.SocketException e) {
        return 0;
      }
    }
  }

  /** One to four changes; half of them in the first 300 bytes. */
  private static byte[] changed(byte[] valid, int seed) {
    Random random = new Random(seed);
    byte[] bytes = valid.clone();
    int changes = 1 + random.nextInt(4);
    for (int i = 0; i < changes && bytes.length > 8; i++) {
      int at = random.nextInt(random.nextBoolean() ? Math.min(300, bytes.length) : bytes.length);
      int length = Math.min(1 + random.nextInt(16), bytes.length - at);
      switch (random.nextInt(6)) {
        case 0 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
        case 1 -> bytes[at] = (byte) random.nextInt(256);
        case 2 -> Arrays.fill(bytes, at, at + length, (byte) (random.nextBoolean() ? 0xff : 0));
        case 3 -> bytes = joined(Arrays.copyOf(bytes, at), bytes, at + length);
        case 4 -> bytes = joined(Arrays.copyOf(bytes, at + length), bytes, at);
        default -> bytes = random.nextInt(4) == 0 ? Arrays.copyOf(bytes, at) : bytes;
      }
    }
    return bytes;
  }

  private static byte[] joined(byte[] head, byte[] bytes, int from) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(head);
    out.write(bytes, from, bytes.length - from);
    return out.toByteArray();
  }

  private static String latin(byte[] bytes) {
    return new String(bytes, StandardCharsets.ISO_8859_1);
  }

  private static byte[] latin(String text) {
    return text.getBytes(StandardCharsets.ISO_8859_1);
  }

  private static byte[] conversation() throws Exception {
    Path file = Peers.objects(Files.createTempDirectory("fuzz"), 0, 1).get(0);
    OutgoingFile object = OutgoingFile.of(file, false);
    byte[] data;
    try (InputStream in = object.dataSet(fault -> {})) {
      data = in.readAllBytes();
    }
    Files.delete(file);
    Files.delete(file.getParent());
    String syntax = object.identity().transferSyntaxUid();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    unit(
        out,
        Pdu.ASSOCIATE_RQ,
        AssociateCodec.encode(
            new AssociateBody(
                Peers.AET,
                "TERN",
                List.of(
                    new PresentationContext(1, object.identity().sopClassUid(), List.of(syntax), 0),
                    new PresentationContext(3, Uids.VERIFICATION, List.of(syntax), 0),
                    new PresentationContext(5, Uids.COMMITMENT, List.of(syntax), 0)),
                16384,
                List.of(object.identity().sopClassUid())),
            false));
    value(out, 3, 3, withData(Command.C_ECHO_RQ, Command.NO_DATA_SET).encode());
    value(
        out,
        1,
        3,
        withData(Command.C_STORE_RQ, 1)
            .withUid(Command.AFFECTED_SOP_CLASS, object.identity().sopClassUid())
            .withUid(Command.AFFECTED_SOP_INSTANCE, object.identity().sopUid())
            .encode());
    int half = data.length / 2;
    value(out, 1, 0, Arrays.copyOf(data, half));
    value(out, 1, 2, Arrays.copyOfRange(data, half, data.length));
    value(out, 5, 3, CommitmentMessages.request(2).with(Command.DATA_SET_TYPE, 1).encode());
    Commitment request =
        new Commitment(
            "2.25.9",
            List.of(new InstanceName(object.identity().sopClassUid(), object.identity().sopUid())),
            List.of());
    value(out, 5, 2, CommitmentEncoder.encode(request, syntax));
    unit(out, Pdu.RELEASE_RQ, new byte[4]);
    return out.toByteArray();
  }

  private static byte[] answers() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    String syntax = TransferSyntax.IMPLICIT_LITTLE.uid();
    unit(
        out,
        Pdu.ASSOCIATE_AC,
        AssociateCodec.encode(
            new AssociateBody(
                Peers.AET,
                "TERN",
                List.of(new PresentationContext(1, "", List.of(syntax), 0)),
                0,
                List.of()),
            true));
    Command answer = Command.of(Command.C_FIND_RQ | Command.RESPONSE).with(Command.RESPONDED_TO, 1);
    value(out, 1, 3, answer.with(Command.DATA_SET_TYPE, 1).with(Command.STATUS, 0xff00).encode());
    Identifier study =
        new Identifier()
            .with(Identifier.STUDY_UID, "1.2.3")
            .with(Identifier.STUDY_DATE, "20260203")
            .with(Identifier.MODALITIES, "OPT");
    value(out, 1, 2, study.encode());
    Command last = answer.with(Command.DATA_SET_TYPE, Command.NO_DATA_SET);
    value(out, 1, 3, last.with(Command.STATUS, 0).encode());
    unit(out, Pdu.RELEASE_RP, new byte[4]);
    return out.toByteArray();
  }

  private static Command withData(int field, int type) {
    return Command.of(field).with(Command.MESSAGE_ID, 1).with(Command.DATA_SET_TYPE, type);
  }

  private static void value(ByteArrayOutputStream out, int context, int control, byte[] value) {
    unit(
        out,
        Pdu.P_DATA,
        ByteBuffer.allocate(6 + value.length)
            .putInt(value.length + 2)
            .put((byte) context)
            .put((byte) control)
            .put(value)
            .array());
  }

  private static void unit(ByteArrayOutputStream out, int type, byte[] body) {
    out.writeBytes(
        ByteBuffer.allocate(6).put((byte) type).put((byte) 0).putInt(body.length).array());
    out.writeBytes(body);
  }
}
