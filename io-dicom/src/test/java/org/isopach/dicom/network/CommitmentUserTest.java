package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.isopach.dicom.data.TransferSyntax;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Asking providers of commitment that behave oddly. */
class CommitmentUserTest {
  private static final List<SentObject> ASKED =
      List.of(
          new SentObject("a", RawPeer.TOMOGRAPHY, "2.25.1"),
          new SentObject("b", RawPeer.TOMOGRAPHY, "2.25.2"),
          new SentObject("c", RawPeer.TOMOGRAPHY, "2.25.3"));

  private final HeardEvents events = new HeardEvents();
  private final ExecutorService provider = Executors.newSingleThreadExecutor();

  /** What a provider does once it has read the request. */
  private interface Script {
    void run(RawPeer peer, Commitment request) throws IOException;
  }

  @AfterEach
  void stop() {
    provider.shutdownNow();
  }

  @Test
  void takesTheReportBeforeTheAnswerAndUnlistedObjectsForFailures() throws Exception {
    CommitResult result =
        ask(
            Peers.PATIENCE,
            (peer, request) -> {
              report(peer, 5, new Commitment("2.25.99", request.referenced(), List.of()));
              assertEquals(0x0115, peer.status(), "a transaction nobody asked for");
              report(
                  peer,
                  6,
                  new Commitment(
                      request.transaction(),
                      request.referenced().subList(0, 1),
                      List.of(new Commitment.Failed(request.referenced().get(2), 0x0213))));
              Command heard = peer.command();
              assertEquals(StoreStatus.SUCCESS, heard.number(Command.STATUS).orElseThrow());
              assertEquals(6, heard.number(Command.RESPONDED_TO).orElseThrow());
              answer(peer, StoreStatus.SUCCESS);
              assertEquals(Pdu.RELEASE_RQ, peer.read()[0]);
              peer.pdu(Pdu.RELEASE_RP, new byte[4]);
            });

    assertEquals(1, result.committed());
    assertEquals(
        List.of(
            new SendResult.Failure("b", "not committed: the report does not name it"),
            new SendResult.Failure(
                "c", "not committed: too much for the peer at the moment (0213)")),
        result.failures());
  }

  @Test
  void saysThatTheRequestWasRefused() throws Exception {
    CommitResult result =
        ask(
            Peers.PATIENCE,
            (peer, request) -> {
              answer(peer, 0x0110);
              assertEquals(Pdu.RELEASE_RQ, peer.read()[0]);
              // Both ask at once (PS3.8, 9.2): the answer to each is due.
              peer.pdu(Pdu.RELEASE_RQ, new byte[4]);
              assertEquals(Pdu.RELEASE_RP, peer.read()[0]);
              peer.pdu(Pdu.RELEASE_RP, new byte[4]);
            });

    assertEquals(0, result.committed());
    assertEquals(
        "not committed: commitment was refused with status 0110",
        result.failures().get(0).reason());
  }

  @Test
  void doesNotWaitForEver() throws Exception {
    CommitResult result =
        ask(
            Duration.ofSeconds(4),
            (peer, request) -> {
              answer(peer, StoreStatus.SUCCESS);
              assertEquals(Pdu.RELEASE_RQ, peer.read()[0]);
              peer.pdu(Pdu.RELEASE_RP, new byte[4]);
            });

    assertEquals("not committed: no report came in time", result.failures().get(2).reason());
  }

  @Test
  void saysThatTheConnectionBroke() throws Exception {
    CommitResult result = ask(Peers.PATIENCE, (peer, request) -> peer.pdu(Pdu.ABORT, new byte[4]));

    assertTrue(
        result.failures().get(0).reason().contains("the peer aborted"),
        result.failures().toString());
  }

  private CommitResult ask(Duration patience, Script script) throws Exception {
    try (ServerSocket server = new ServerSocket(0)) {
      Callable<Void> play =
          () -> {
            try (Socket socket = server.accept();
                RawPeer peer = new RawPeer(socket)) {
              peer.accept(TransferSyntax.IMPLICIT_LITTLE);
              Command command = peer.command();
              assertEquals(Command.N_ACTION_RQ, command.number(Command.FIELD).orElseThrow());
              String syntax = TransferSyntax.IMPLICIT_LITTLE.uid();
              script.run(peer, CommitmentDecoder.decode(peer.piece(), syntax));
              return null;
            }
          };
      Future<Void> played = provider.submit(play);
      CallerSettings usual = Peers.to(server.getLocalPort());
      CallerSettings caller =
          new CallerSettings(usual.callingAet(), usual.to(), patience, usual.tls(), 0);
      CommitResult result = CommitmentClient.commit(caller, ASKED, Optional.empty(), events);
      played.get();
      return result;
    }
  }

  private static void report(RawPeer peer, int messageId, Commitment report) throws IOException {
    Command command = CommitmentMessages.report(report, messageId).with(Command.DATA_SET_TYPE, 1);
    peer.value(1, 3, command.encode());
    peer.value(1, 2, CommitmentEncoder.encode(report, TransferSyntax.IMPLICIT_LITTLE.uid()));
  }

  private static void answer(RawPeer peer, int status) throws IOException {
    peer.value(
        1,
        3,
        Command.of(Command.N_ACTION_RQ | Command.RESPONSE)
            .with(Command.RESPONDED_TO, 1)
            .with(Command.DATA_SET_TYPE, Command.NO_DATA_SET)
            .with(Command.STATUS, status)
            .encode());
  }
}
