package org.isopach.dicom.network;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;

/** A listener in a process of its own, so that it can be killed. */
final class ListenerProcess {
  private final Process process;
  private final int port;

  private ListenerProcess(Process process, int port) {
    this.process = process;
    this.port = port;
  }

  int port() {
    return port;
  }

  /** Starts a listener and waits until it listens. */
  static ListenerProcess start(int port, Path folder) throws IOException {
    return start(port, folder, "unlimited");
  }

  /** Starts a listener that can write no file longer than a number of half KiB. */
  static ListenerProcess start(int port, Path folder, String longestFile) throws IOException {
    return start(port, folder, "", "ulimit -f " + longestFile);
  }

  /** Starts a listener that stores into a disk of its own of so many KiB. */
  static ListenerProcess onDisk(Path folder, int kib) throws IOException {
    String mount = "mount -t tmpfs -o size=" + kib + "k tmpfs " + folder;
    return start(0, folder, "unshare -rm ", mount);
  }

  /** Returns a folder as the process sees it. */
  Path seen(Path folder) {
    return Path.of("/proc/" + process.pid() + "/root" + folder);
  }

  private static ListenerProcess start(int port, Path folder, String inside, String first)
      throws IOException {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    Process process =
        new ProcessBuilder(
                "sh",
                "-c",
                "exec " + inside + "sh -c '" + first + " && exec \"$@\"' sh \"$@\"",
                "sh",
                java,
                "-XX:-UsePerfData",
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
    String line = out.readLine();
    if (line == null) {
      throw new IOException("the listener did not start");
    }
    return new ListenerProcess(process, Integer.parseInt(line));
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
