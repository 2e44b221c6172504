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
  private final HttpClient http = HttpClient.newHttpClient();
  private Process orthanc;
  private int httpPort;
  private int ourPort;
  private CallerSettings caller;

  @BeforeEach
  void start() throws Exception {
    assumeTrue(Files.isExecutable(PROGRAM), "bin/setup installs orthanc");
    int dicomPort = Peers.freePort();
    httpPort = Peers.freePort();
    ourPort = Peers.freePort();
    Path config = folder.resolve("orthanc.json");
    Files.writeString(
        config,
        """
        {"Name": "commitment", "StorageDirectory": "%s", "IndexDirectory": "%s", "Plugins": [],
         "HttpPort": %d, "DicomPort": %d, "DicomAet": "%s", "RemoteAccessAllowed": false,
         "AuthenticationEnabled": false, "DicomCheckCalledAet": true, "ConcurrentJobs": 1,
         "KeepAlive": false,
         "DicomModalities": {"tern": {"AET": "TERN", "Host": "localhost", "Port": %d,
                                      "AllowStorageCommitment": true}}}
        """
            .formatted(
                folder.resolve("store"),
                folder.resolve("store"),
                httpPort,
                dicomPort,
                Peers.AET,
                ourPort));
    orthanc =
        new ProcessBuilder(PROGRAM.toString(), config.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log").toFile())
            .start();
    caller = Peers.to(dicomPort);
    Peers.awaitEcho(dicomPort);
    SendResult sent =
        StorageSender.send(
            caller, Peers.objects(folder.resolve("in"), 0, COUNT), Optional.empty(), events);
    assertEquals(COUNT, sent.sent(), events.toString());
  }

  @AfterEach
  void stop() throws InterruptedException {
    if (orthanc != null) {
      orthanc.destroyForcibly().waitFor();
    }
  }

  @Test
  void theirsCommitsItself() throws Exception {
    CommitResult result =
        CommitmentClient.commit(
            caller, asked(), Optional.of(CommitmentClient.port(caller, ourPort, false)), events);

    assertEquals(COUNT, result.committed(), events + Files.readString(folder.resolve("log")));
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
                new Destination("TERN", "localhost", listener.port()),
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
    long end = System.nanoTime() + Duration.ofSeconds(20).toNanos();
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
      throw new IOException(
          "Orthanc "
              + (orthanc.isAlive() ? "runs" : "ended with " + orthanc.exitValue())
              + "; its log: "
              + Files.readString(folder.resolve("log")),
          e);
    }
  }

  private URI uri(String path) {
    return URI.create("http://localhost:" + httpPort + path);
  }
}
