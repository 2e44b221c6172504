package org.isopach.dicom.network;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;

/** A listener in a process of its own, so that it can be killed. */
final class ListenerProcess {
  private final Process process;

  private ListenerProcess(Process process) {
    this.process = process;
  }

  /** Starts a listener and waits until it listens. */
  static ListenerProcess start(int port, Path folder) throws IOException {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    Process process =
        new ProcessBuilder(
                java,
                "-Xmx64m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-Xshare:auto",
                "-cp",
                System.getProperty("java.class.path"),
                ListenerProcess.class.getName(),
                "" + port,
                folder.toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    BufferedReader out = process.inputReader(StandardCharsets.UTF_8);
    if (out.readLine() == null) {
      throw new IOException("the listener did not start");
    }
    return new ListenerProcess(process);
  }

  /** Kills it (SIGKILL). */
  void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  /** Listens until it is killed. */
  public static void main(String[] args) throws Exception {
    ListenerSettings settings =
        ListenerSettings.usual(Integer.parseInt(args[0]), Peers.AET, Path.of(args[1]));
    StorageListener listener = StorageListener.start(settings, (kind, line) -> {});
    System.out.println(listener.port());
    new CountDownLatch(1).await();
  }
}
