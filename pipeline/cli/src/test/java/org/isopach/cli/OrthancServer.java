package org.isopach.cli;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.Closeable;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.concurrent.TimeUnit;

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
  private static final int TRIES = 150;

  private final Path folder;
  private final Process process;
  private final int port;
  private final int httpPort;
  private final int movePort;

  private OrthancServer(Path folder, int port, int httpPort, int movePort) throws IOException {
    this.folder = folder;
    this.port = port;
    this.httpPort = httpPort;
    this.movePort = movePort;
    this.process =
        new ProcessBuilder(PROGRAM.toString(), folder.resolve("config.json").toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log").toFile())
            .start();
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
    int[] ports = freePorts();
    ObjectMapper json = new ObjectMapper();
    ObjectNode config = json.createObjectNode();
    config.put("Name", "TERN").put("DicomAet", "TERN").put("DicomPort", ports[0]);
    config.put("StorageDirectory", folder.resolve("store").toString());
    config.put("IndexDirectory", folder.resolve("store").toString());
    config.put("HttpPort", ports[1]).put("RemoteAccessAllowed", false);
    config.put("AuthenticationEnabled", true);
    config.putObject("RegisteredUsers").put("tern", "sandpiper");
    config.putArray("Plugins").add(PLUGIN.toString());
    // Orthanc 1.10 knows no height maps; unknown classes are refused unless this is said.
    config.put("UnknownSopClassAccepted", true);
    config.put("DicomAlwaysAllowFind", true).put("DicomAlwaysAllowGet", true);
    config.put("DicomAlwaysAllowMove", true).put("SaveJobs", false);
    config.putObject("DicomModalities").putArray("us").add(US).add("127.0.0.1").add(ports[2]);
    json.writeValue(folder.resolve("config.json").toFile(), config);
    OrthancServer server = new OrthancServer(folder, ports[0], ports[1], ports[2]);
    try {
      server.await();
      return server;
    } catch (AssertionError | InterruptedException e) {
      server.close();
      throw e;
    }
  }

  private void await() throws IOException, InterruptedException {
    for (int i = 0; i < TRIES && process.isAlive(); i++) {
      boolean web = Call.isopach(byWeb("send", "--retries", "0")).code() == 0;
      if (web && Call.isopach("send", "--retries", "0", "--to", title()).code() == 0) {
        return;
      }
      TimeUnit.MILLISECONDS.sleep(200);
    }
    throw new AssertionError("Orthanc does not answer: " + log());
  }

  /** Returns who it is by DIMSE. */
  String title() {
    return "TERN@localhost:" + port;
  }

  /** Returns its base URL. */
  String url() {
    return "http://localhost:" + httpPort + "/dicom-web";
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

  /** Returns what it wrote to its log. */
  String log() throws IOException {
    return Files.readString(folder.resolve("log"));
  }

  private static int[] freePorts() throws IOException {
    try (ServerSocket one = new ServerSocket(0);
        ServerSocket two = new ServerSocket(0);
        ServerSocket three = new ServerSocket(0)) {
      return new int[] {one.getLocalPort(), two.getLocalPort(), three.getLocalPort()};
    }
  }

  @Override
  public void close() {
    process.destroy();
    try {
      if (!process.waitFor(20, TimeUnit.SECONDS)) {
        process.destroyForcibly().waitFor();
      }
    } catch (InterruptedException e) {
      process.destroyForcibly();
      Thread.currentThread().interrupt();
    }
  }
}
