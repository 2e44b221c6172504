package org.isopach.cli;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.isopach.dicom.peer.PeerProcess;
import org.isopach.dicom.peer.Ports;

/**
 * An archive of others: Debian's Orthanc with its DICOMweb plugin, in a process of its own, on this
 * machine alone, with storage that is thrown away. HTTPS with a certificate made for the test, and
 * a login; DIMSE plain.
 */
final class OrthancServer implements Closeable {
  /** What the program calls itself unless told otherwise; the archive moves objects to it. */
  private static final String US = "ISOPACH";

  private static final Path PROGRAM = Path.of("/usr/sbin/Orthanc");
  private static final Path PLUGIN = Path.of("/usr/share/orthanc/plugins/libOrthancDicomWeb.so");
  private static final String LOGIN = "tern:sandpiper";
  private static final Duration PATIENCE = Duration.ofMinutes(3);

  private final Path folder;
  private final PeerProcess process;
  private final int movePort;

  private OrthancServer(Path folder, PeerProcess process, int movePort) {
    this.folder = folder;
    this.process = process;
    this.movePort = movePort;
  }

  /** Skips the tests where Orthanc is not installed. */
  static void need() {
    assumeTrue(
        Files.isExecutable(PROGRAM) && Files.exists(PLUGIN),
        "Orthanc is not installed; bin/setup installs it on Debian");
  }

  /** Starts it and waits until it answers both ways. */
  static OrthancServer start(Path folder) throws Exception {
    Files.writeString(folder.resolve("login"), LOGIN + "\n");
    int movePort = Ports.free();
    PeerProcess process =
        PeerProcess.start(
            folder.resolve("log"),
            2,
            ports -> List.of(PROGRAM.toString(), config(folder, ports[0], ports[1], movePort)));
    OrthancServer server = new OrthancServer(folder, process, movePort);
    try {
      server.await();
      return server;
    } catch (AssertionError | IOException | InterruptedException e) {
      server.close();
      throw e;
    }
  }

  private static String config(Path folder, int port, int httpPort, int movePort)
      throws IOException {
    ObjectMapper json = new ObjectMapper();
    ObjectNode config = json.createObjectNode();
    config.put("Name", "TERN").put("DicomAet", "TERN").put("DicomPort", port);
    config.put("StorageDirectory", folder.resolve("store").toString());
    config.put("IndexDirectory", folder.resolve("store").toString());
    config.put("HttpPort", httpPort).put("RemoteAccessAllowed", false);
    config.put("AuthenticationEnabled", true);
    config.putObject("RegisteredUsers").put("tern", "sandpiper");
    config.putArray("Plugins").add(PLUGIN.toString());
    // Orthanc 1.10 knows no height maps; unknown classes are refused unless this is said.
    config.put("UnknownSopClassAccepted", true);
    config.put("DicomAlwaysAllowFind", true).put("DicomAlwaysAllowGet", true);
    config.put("DicomAlwaysAllowMove", true).put("SaveJobs", false);
    config.putObject("DicomModalities").putArray("us").add(US).add(NetworkFiles.HOST).add(movePort);
    Path file = folder.resolve("config.json");
    json.writeValue(file.toFile(), config);
    return file.toString();
  }

  private void await() throws IOException, InterruptedException {
    long end = System.nanoTime() + PATIENCE.toNanos();
    while (System.nanoTime() < end) {
      boolean web = Call.isopach(byWeb("send", "--retries", "0")).code() == 0;
      if (web && Call.isopach("send", "--retries", "0", "--to", title()).code() == 0) {
        return;
      }
      TimeUnit.MILLISECONDS.sleep(200);
    }
    throw new AssertionError("Orthanc does not answer: " + process.state());
  }

  /** Returns who it is by DIMSE. */
  String title() {
    return "TERN@" + NetworkFiles.HOST + ":" + process.port(0);
  }

  /** Returns its base URL. */
  String url() {
    return "http://" + NetworkFiles.HOST + ":" + process.port(1) + "/dicom-web";
  }

  /** Returns the port it moves objects to. */
  int movePort() {
    return movePort;
  }

  /** Returns the words of a call by DICOMweb, with the login. */
  Object[] byWeb(String command, Object... more) {
    Object[] ours = {
      command,
      command.equals("send") ? "--to" : "--from",
      url(),
      "--login-file",
      folder.resolve("login")
    };
    Object[] all = Arrays.copyOf(ours, ours.length + more.length);
    System.arraycopy(more, 0, all, ours.length, more.length);
    return all;
  }

  /** Returns whether it runs, and what it wrote to its log. */
  String log() throws IOException {
    return process.state();
  }

  @Override
  public void close() {
    process.close();
  }
}
