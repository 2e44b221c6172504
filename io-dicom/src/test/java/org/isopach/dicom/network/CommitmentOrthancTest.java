package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.peer.PeerProcess;
import org.isopach.dicom.peer.Ports;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Storage commitment with Orthanc (Debian's package), both ways. */
class CommitmentOrthancTest {
  private static final Path PROGRAM = Path.of("/usr/sbin/Orthanc");
  private static final int COUNT = 3;
  private static final String UNKNOWN = "2.25.4711";

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();
  private final HttpClient http =
      HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
  private PeerProcess orthanc;
  private int ourPort;
  private CallerSettings caller;

  @BeforeEach
  void start() throws Exception {
    assumeTrue(Files.isExecutable(PROGRAM), "bin/setup installs orthanc");
    ourPort = Ports.free();
    orthanc =
        PeerProcess.start(
            folder.resolve("log"),
            2,
            ports -> List.of(PROGRAM.toString(), config(ports[0], ports[1]).toString()));
    caller = Peers.to(orthanc.port(1));
    Peers.awaitEcho(orthanc.port(1));
    SendResult sent =
        StorageSender.send(
            caller, Peers.objects(folder.resolve("in"), 0, COUNT), Optional.empty(), events);
    assertEquals(COUNT, sent.sent(), events + orthanc.state());
  }

  private Path config(int httpPort, int dicomPort) throws IOException {
    return Files.writeString(
        folder.resolve("orthanc.json"),
        """
        {"Name": "commitment", "StorageDirectory": "%s", "IndexDirectory": "%s", "Plugins": [],
         "HttpPort": %d, "DicomPort": %d, "DicomAet": "%s", "RemoteAccessAllowed": false,
         "AuthenticationEnabled": false, "DicomCheckCalledAet": true, "ConcurrentJobs": 1,
         "KeepAlive": false,
         "DicomModalities": {"tern": {"AET": "TERN", "Host": "%s", "Port": %d,
                                      "AllowStorageCommitment": true}}}
        """
            .formatted(
                folder.resolve("store"),
                folder.resolve("store"),
                httpPort,
                dicomPort,
                Peers.AET,
                Peers.HOST,
                ourPort));
  }

  @AfterEach
  void stop() {
    if (orthanc != null) {
      orthanc.close();
    }
  }

  @Test
  void theirsCommitsItself() throws Exception {
    CommitResult result =
        CommitmentClient.commit(
            caller, asked(), Optional.of(CommitmentClient.port(caller, ourPort, false)), events);

    assertEquals(COUNT, result.committed(), events + orthanc.state());
    assertEquals(
        List.of(new SendResult.Failure("unknown", "not committed: no such object there (0112)")),
        result.failures());
  }

  @Test
  void oursCommitsItself() throws Exception {
    Path out = folder.resolve("out");
    ListenerSettings settings =
        ListenerSettings.usual(ourPort, "TERN", out).committingTo(List.of(caller.to()));
    try (StorageListener listener = StorageListener.start(settings, events)) {
      for (int i = 0; i < COUNT; i++) {
        StorageSender.send(
            new CallerSettings(
                Peers.AET,
                new Destination("TERN", Peers.HOST, listener.port()),
                Peers.PATIENCE,
                Optional.empty(),
                0),
            List.of(folder.resolve(String.format("in/%05d.dcm", i))),
            Optional.empty(),
            events);
      }

      String all = request(asked().subList(0, COUNT));
      String some = request(asked());

      assertTrue(all.contains("\"Status\" : \"Success\""), all + events);
      assertTrue(some.contains("\"Status\" : \"Failure\""), some + events);
      assertTrue(some.contains(UNKNOWN), some);
      // 0112, which Orthanc explains as not available.
      assertTrue(some.contains("\"FailureReason\" : 274"), some);
    }
  }

  private static List<SentObject> asked() {
    List<SentObject> asked = new ArrayList<>();
    for (int i = 0; i < COUNT; i++) {
      asked.add(new SentObject("file " + i, RawPeer.TOMOGRAPHY, Peers.uid(i)));
    }
    asked.add(new SentObject("unknown", RawPeer.TOMOGRAPHY, UNKNOWN));
    return asked;
  }

  /** Has Orthanc ask us, and returns what it says once it has our report. */
  private String request(List<SentObject> objects) throws Exception {
    List<String> pairs =
        objects.stream()
            .map(one -> "[\"" + one.sopClass() + "\", \"" + one.sopInstance() + "\"]")
            .toList();
    String answer =
        send(
            HttpRequest.newBuilder(uri("/modalities/tern/storage-commitment"))
                .POST(BodyPublishers.ofString("{\"DicomInstances\": " + pairs + "}"))
                .build());
    String id = answer.replaceAll("(?s).*\"ID\" : \"([^\"]*)\".*", "$1");
    long end = System.nanoTime() + Duration.ofMinutes(2).toNanos();
    String state;
    do {
      Thread.sleep(50);
      state = send(HttpRequest.newBuilder(uri("/storage-commitment/" + id)).build());
    } while (state.contains("Pending") && System.nanoTime() < end);
    return state;
  }

  private String send(HttpRequest request) throws Exception {
    try {
      return http.send(request, BodyHandlers.ofString()).body();
    } catch (IOException e) {
      throw new IOException("Orthanc: " + orthanc.state(), e);
    }
  }

  private URI uri(String path) {
    return URI.create("http://" + Peers.HOST + ":" + orthanc.port(0) + path);
  }
}
