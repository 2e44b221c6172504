package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.stream.Stream;
import org.isopach.dicom.data.TransferSyntax;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Reports of storage commitment that are due when a listener dies. */
class DueReportsTest {
  private static final String TRANSACTION = "2.25.5";

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();
  private final AwaitedReports awaited = new AwaitedReports();

  @Test
  void aReportOutlivesAListenerThatIsKilled() throws Exception {
    Path out = folder.resolve("out");
    InstanceName kept = new InstanceName(RawPeer.TOMOGRAPHY, Peers.uid(0));
    int port;
    try (ServerSocket silent = new ServerSocket(0)) {
      port = silent.getLocalPort();
      Process process = listener(out, port);
      try (BufferedReader said = process.inputReader(StandardCharsets.UTF_8)) {
        int there = Integer.parseInt(said.readLine());
        List<Path> files = Peers.objects(folder.resolve("in"), 0, 1);
        assertEquals(
            1, StorageSender.send(Peers.to(there), files, Optional.empty(), events).sent());
        assertEquals(StoreStatus.SUCCESS, ask(there, kept));
      } finally {
        process.destroyForcibly().waitFor();
      }
    }
    assertEquals(1, due(out), "what was asked for is written down before the answer");

    awaited.expect(TRANSACTION, List.of(kept));
    ListenerSettings ours = CommitmentClient.port(Peers.to(1), port, false);
    try (AssociationServer us = AssociationServer.start(ours, events, Offer.REPORTS, this::hear);
        StorageListener next = StorageListener.start(committing(out, us.port()), events)) {
      awaited.await(System.nanoTime() + Duration.ofSeconds(60).toNanos());
      assertEquals(1, next.size());
    }
    assertTrue(awaited.committed(kept), events + awaited.reason(kept));
    for (int i = 0; i < 1200 && due(out) > 0; i++) {
      Thread.sleep(50);
    }
    assertEquals(0, due(out), "what was reported is due no more");
  }

  @Test
  void nothingIsPromisedThatCannotBeWrittenDown() throws Exception {
    Path out = folder.resolve("out");
    InstanceName lost = new InstanceName(RawPeer.TOMOGRAPHY, Peers.uid(0));
    try (StorageListener listener = StorageListener.start(committing(out, 1), events)) {
      Files.delete(out.resolve(".incoming").resolve("lock"));
      Files.delete(out.resolve(".incoming"));
      assertEquals(0x0213, ask(listener.port(), lost));
    }
    assertTrue(events.hear("cannot write down"), events.toString());
  }

  @Test
  void whatCannotBeSentStaysAndIsNamed() throws Exception {
    Path out = folder.resolve("out");
    Path incoming = Files.createDirectories(out.resolve(".incoming"));
    Files.writeString(incoming.resolve("7.commit"), "SKERRY\n2.25.5\n1.2 1.2.3\n");
    Files.writeString(incoming.resolve("8.commit"), "SKERRY\n2.25.5\n");
    Files.writeString(incoming.resolve("9.commit.part"), "SKERRY\n2.25.5\n1.2 1.2.3\n");
    try (StorageListener listener = StorageListener.start(committing(out, 1), events)) {
      assertEquals(0, listener.size());
    }
    assertTrue(events.hear("waits for SKERRY"), events.toString());
    assertTrue(events.hear("8.commit is damaged"), events.toString());
    assertEquals(2, due(out));
    assertTrue(Files.notExists(incoming.resolve("9.commit.part")), "it was never promised");
  }

  private String hear(Association association) throws IOException {
    Optional<Association.Message> message = association.receive();
    while (message.isPresent()) {
      awaited.answer(association, message.get());
      message = association.receive();
    }
    return "reports";
  }

  /** Asks as a peer whose reports go to an address of its own; returns the status. */
  private static int ask(int port, InstanceName name) throws IOException {
    try (RawPeer peer = new RawPeer(port)) {
      peer.associate(Peers.AET, Uids.COMMITMENT, TransferSyntax.IMPLICIT_LITTLE);
      Command action = CommitmentMessages.request(3).with(Command.DATA_SET_TYPE, 1);
      peer.value(1, 3, action.encode());
      Commitment request = new Commitment(TRANSACTION, List.of(name), List.of());
      peer.value(1, 2, CommitmentEncoder.encode(request, TransferSyntax.IMPLICIT_LITTLE.uid()));
      return peer.status();
    }
  }

  private static long due(Path out) throws IOException {
    try (Stream<Path> files = Files.list(out.resolve(".incoming"))) {
      return files.filter(file -> file.toString().endsWith(".commit")).count();
    }
  }

  private static ListenerSettings committing(Path out, int port) {
    return ListenerSettings.usual(0, Peers.AET, out)
        .committingTo(List.of(new Destination("TERN", "localhost", port)));
  }

  private static Process listener(Path out, int port) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx64m",
            "-XX:TieredStopAtLevel=1",
            "-cp",
            System.getProperty("java.class.path"),
            DueReportsTest.class.getName(),
            out.toString(),
            "" + port)
        .redirectError(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  /** Listens until it is killed. */
  public static void main(String[] args) throws Exception {
    ListenerSettings settings = committing(Path.of(args[0]), Integer.parseInt(args[1]));
    StorageListener listener = StorageListener.start(settings, (kind, line) -> {});
    System.out.println(listener.port());
    new CountDownLatch(1).await();
  }
}
