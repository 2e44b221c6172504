package org.isopach.cli.bench;

import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.cli.page.Markdown;
import org.isopach.dicom.network.CallerSettings;
import org.isopach.dicom.network.Destination;
import org.isopach.dicom.network.ListenerSettings;
import org.isopach.dicom.network.StorageListener;
import org.isopach.dicom.network.StorageSender;

/** How fast objects are received, beside dcmtk's storescp on the same files in the same run. */
final class NetworkSpeed {
  private static final int VOLUMES = 20;
  private static final int TURNS = 3;
  private static final double LEAST_RATIO = 0.8;
  private static final String AET = "BENCH";
  private static final Duration PATIENCE = Duration.ofSeconds(10);

  private NetworkSpeed() {}

  /** Sends the same volumes to both in turn and adds the figures to a page. */
  static void run(Path folder, Markdown page) throws Exception {
    Path in = folder.resolve("sent");
    BenchFiles.rendered().write(in, 0, VOLUMES);
    double bytes = bytes(in);
    List<List<String>> rows = new ArrayList<>();
    for (int turn = 0; turn < TURNS; turn++) {
      double theirs = bytes / theirs(in, Files.createDirectories(folder.resolve("theirs" + turn)));
      double ours = bytes / ours(in, folder.resolve("ours" + turn));
      rows.add(
          List.of(
              Integer.toString(turn + 1),
              Markdown.number(theirs / 1e6, 0),
              Markdown.number(ours / 1e6, 0),
              Markdown.number(ours / theirs, 2),
              ours >= LEAST_RATIO * theirs ? "yes" : "**no**"));
    }
    page.heading(2, "Receiving")
        .paragraph(
            VOLUMES
                + " volumes sent by one storescu over loopback, with TCP_NODELAY for it and for"
                + " storescp. Ours forces every object to the disk before it acknowledges.")
        .table(
            List.of("turn", "storescp, MB/s", "isopach receive, MB/s", "ratio", "at least 0.8"),
            rows);
  }

  private static double bytes(Path in) throws IOException {
    double sum = 0;
    try (var files = Files.list(in)) {
      for (Path file : files.toList()) {
        sum += Files.size(file);
      }
    }
    return sum;
  }

  private static double theirs(Path in, Path out) throws Exception {
    int port;
    try (ServerSocket socket = new ServerSocket(0)) {
      port = socket.getLocalPort();
    }
    Process scp =
        quiet("env", "TCP_NODELAY=1", "storescp", "-aet", AET, "-od", out.toString(), "" + port);
    try {
      await(port);
      return seconds(in, port);
    } finally {
      scp.destroy();
      scp.waitFor();
    }
  }

  private static double ours(Path in, Path out) throws Exception {
    try (StorageListener listener =
        StorageListener.start(ListenerSettings.usual(0, AET, out), (kind, line) -> {})) {
      return seconds(in, listener.port());
    }
  }

  private static double seconds(Path in, int port) throws IOException, InterruptedException {
    long start = System.nanoTime();
    Process scu =
        quiet(
            "env",
            "TCP_NODELAY=1",
            "storescu",
            "-R",
            "-aec",
            AET,
            "+sd",
            "localhost",
            "" + port,
            in.toString());
    if (scu.waitFor() != 0) {
      throw new IOException("storescu ended with " + scu.exitValue());
    }
    return (System.nanoTime() - start) / 1e9;
  }

  private static Process quiet(String... command) throws IOException {
    return new ProcessBuilder(command)
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  private static void await(int port) throws InterruptedException, IOException {
    CallerSettings caller =
        new CallerSettings(
            AET, new Destination(AET, "localhost", port), PATIENCE, Optional.empty(), 0);
    for (int i = 0; i < 100; i++) {
      try {
        StorageSender.echo(caller);
        return;
      } catch (IOException e) {
        Thread.sleep(50);
      }
    }
    throw new IOException("storescp did not start");
  }
}
