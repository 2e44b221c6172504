package org.isopach.dicom.network;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;

/** A listener in a process of its own, so that it can be killed. */
final class ListenerProcess {
  private static final String LISTENS = "listens on port ";

  private final Process process;
  private final int port;
  private final Thread last;

  private ListenerProcess(Process process, int port, Thread last) {
    this.process = process;
    this.port = port;
    this.last = last;
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
            .redirectErrorStream(true)
            .start();
    Thread last = new Thread(process::destroyForcibly);
    Runtime.getRuntime().addShutdownHook(last);
    return new ListenerProcess(process, port(process), last);
  }

  private static int port(Process process) throws IOException {
    BufferedReader out = process.inputReader(StandardCharsets.UTF_8);
    StringBuilder said = new StringBuilder();
    for (String line = out.readLine(); line != null; line = out.readLine()) {
      if (line.startsWith(LISTENS)) {
        drain(out);
        return Integer.parseInt(line.substring(LISTENS.length()));
      }
      said.append(line).append('\n');
    }
    throw new IOException("the listener did not start: " + said);
  }

  /** Reads on, so that a process with much to say never waits for us. */
  private static void drain(BufferedReader out) {
    Thread reader = new Thread(() -> out.lines().forEach(line -> {}), "words of a listener");
    reader.setDaemon(true);
    reader.start();
  }

  /** Kills it (SIGKILL). */
  void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
    Runtime.getRuntime().removeShutdownHook(last);
  }

  /** Listens until it is killed. */
  public static void main(String[] args) throws Exception {
    ListenerSettings settings =
        ListenerSettings.usual(Integer.parseInt(args[0]), Peers.AET, Path.of(args[1]));
    StorageListener listener = StorageListener.start(settings, (kind, line) -> {});
    System.out.println(LISTENS + listener.port());
    new CountDownLatch(1).await();
  }
}
