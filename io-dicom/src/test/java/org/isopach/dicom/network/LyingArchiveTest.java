package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.isopach.dicom.data.TransferSyntax;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** An archive that gives what was not asked for, counts wrongly, or says nothing. */
@Timeout(900)
class LyingArchiveTest {
  private static final int SOP_CLASS = 0x00080016;
  private static final int SOP_INSTANCE = 0x00080018;
  private static final int SERIES_UID = 0x0020000E;
  private static final String OURS = "2.25.7103";
  private static final FoundStudy STUDY = new FoundStudy(OURS, "", "", "");

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();
  private final ExecutorService archive = Executors.newSingleThreadExecutor();
  private ServerSocket socket;

  /** What the archive says once a request is there. */
  @FunctionalInterface
  private interface Script {
    void answer(RawPeer peer) throws Exception;
  }

  @BeforeEach
  void open() throws IOException {
    socket = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
  }

  @AfterEach
  void close() throws IOException {
    socket.close();
    archive.shutdownNow();
  }

  private Future<Void> answering(Script script) {
    return archive.submit(
        () -> {
          try (RawPeer peer = new RawPeer(socket.accept())) {
            peer.accept(TransferSyntax.IMPLICIT_LITTLE);
            peer.piece();
            peer.piece();
            script.answer(peer);
          }
          return null;
        });
  }

  private ArchiveClient client(int patience) {
    return new ArchiveClient(
        new CallerSettings(
            "TERN",
            new Destination(Peers.AET, Peers.HOST, socket.getLocalPort()),
            Duration.ofSeconds(patience),
            Optional.empty(),
            0),
        events);
  }

  private static void answer(RawPeer peer, int request, int status, int completed)
      throws IOException {
    peer.value(
        1,
        3,
        Command.of(request | Command.RESPONSE)
            .with(Command.RESPONDED_TO, 1)
            .with(Command.DATA_SET_TYPE, Command.NO_DATA_SET)
            .with(Command.STATUS, status)
            .with(Command.COMPLETED, completed)
            .encode());
  }

  private static void found(RawPeer peer, String patient, String study, String date)
      throws IOException {
    peer.value(
        1,
        3,
        Command.of(Command.C_FIND_RQ | Command.RESPONSE)
            .with(Command.RESPONDED_TO, 1)
            .with(Command.DATA_SET_TYPE, 1)
            .with(Command.STATUS, 0xFF00)
            .encode());
    peer.value(
        1,
        2,
        new Identifier()
            .with(Identifier.STUDY_DATE, date)
            .with(Identifier.PATIENT_ID, patient)
            .with(Identifier.STUDY_UID, study)
            .encode());
  }

  @Test
  void leavesOutStudiesNobodyAskedFor() throws Exception {
    Future<Void> said =
        answering(
            peer -> {
              found(peer, "TSEU-2", "2.25.1", "20260102");
              found(peer, "TSEU-1", "2.25.2", "20250102");
              found(peer, "TSEU-1", OURS, "20260102");
              answer(peer, Command.C_FIND_RQ, 0, 0);
            });

    List<FoundStudy> studies = client(60).find(new StudyQuery("TSEU-1", "", "20260101-"));

    said.get(120, TimeUnit.SECONDS);
    assertEquals(List.of(OURS), studies.stream().map(FoundStudy::studyUid).toList());
    assertTrue(events.hear("study 2.25.1 was not asked for"), events.toString());
  }

  private static int store(RawPeer peer, String study, String instance) throws IOException {
    peer.value(
        3,
        3,
        Command.of(Command.C_STORE_RQ)
            .withUid(Command.AFFECTED_SOP_CLASS, RawPeer.TOMOGRAPHY)
            .with(Command.MESSAGE_ID, 7)
            .with(Command.PRIORITY, 0)
            .with(Command.DATA_SET_TYPE, 1)
            .withUid(Command.AFFECTED_SOP_INSTANCE, instance)
            .encode());
    peer.value(
        3,
        2,
        new Identifier()
            .with(SOP_CLASS, RawPeer.TOMOGRAPHY)
            .with(SOP_INSTANCE, instance)
            .with(Identifier.STUDY_UID, study)
            .with(SERIES_UID, "2.25.7104")
            .encode());
    return peer.status();
  }

  @Test
  void takesNoObjectOfAnotherStudy() throws Exception {
    Future<Void> said =
        answering(
            peer -> {
              assertEquals(StoreStatus.MISMATCH, store(peer, "2.25.99", "2.25.8101"));
              assertEquals(StoreStatus.SUCCESS, store(peer, OURS, "2.25.8102"));
              answer(peer, Command.C_GET_RQ, 0, 2);
            });

    RetrieveResult result = client(60).get(STUDY, folder);

    said.get(120, TimeUnit.SECONDS);
    assertFalse(result.whole(), result.toString());
    assertEquals(1, result.completed());
    assertEquals(1, result.failed());
    List<Path> kept = Peers.kept(folder);
    assertEquals(1, kept.size());
    assertTrue(kept.get(0).endsWith("2.25.8102.dcm"), kept.toString());
  }

  @Test
  void believesNoCountOfWhatDidNotCome() throws Exception {
    for (int claimed : new int[] {0, 3}) {
      Future<Void> said = answering(peer -> answer(peer, Command.C_GET_RQ, 0, claimed));

      RetrieveResult result = client(60).get(STUDY, folder);

      said.get(120, TimeUnit.SECONDS);
      assertFalse(result.whole(), result.toString());
      assertEquals(0, result.completed());
      assertEquals(claimed, result.failed());
    }
  }

  @Test
  void takesOnlyTheStudiesAskedForOnAPortOfItsOwn() throws Exception {
    ListenerSettings settings = client(60).port(0, folder, false);
    try (StorageListener listener =
        StorageListener.start(settings, java.util.Set.of("2.25.99"), events)) {
      List<Path> ours = Peers.objects(folder.resolve("in"), 0, 1);
      SendResult stranger = send("STRANGER", listener.port(), ours);
      SendResult known = send(Peers.AET, listener.port(), ours);

      assertTrue(stranger.failures().get(0).reason().contains("our title"), stranger.toString());
      assertTrue(known.failures().get(0).reason().contains("A900"), known.toString());
      assertEquals(0, listener.taken());
    }
  }

  private SendResult send(String title, int port, List<Path> files) throws IOException {
    CallerSettings caller =
        new CallerSettings(
            title, new Destination("TERN", Peers.HOST, port), Peers.PATIENCE, Optional.empty(), 0);
    return StorageSender.send(caller, files, Optional.empty(), events);
  }

  @Test
  void saysThatAnArchiveIsSilent() throws Exception {
    CountDownLatch end = new CountDownLatch(1);
    Future<Void> said = answering(peer -> end.await());

    AssociationException silent =
        assertThrows(AssociationException.class, () -> client(1).get(STUDY, folder));

    end.countDown();
    said.get(120, TimeUnit.SECONDS);
    assertEquals("no answer within 1 s", silent.getMessage());
  }
}
