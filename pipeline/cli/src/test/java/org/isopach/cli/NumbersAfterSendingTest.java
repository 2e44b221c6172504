package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.network.ListenerSettings;
import org.isopach.dicom.network.StorageListener;
import org.isopach.dicom.network.TlsFiles;
import org.isopach.dicom.peer.PeerProcess;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A study that went over the network, by dcmtk to us and by us to dcmtk, has the same tables. */
class NumbersAfterSendingTest {
  private static final String AET = "SANDPIPER";

  @TempDir static Path shared;
  @TempDir Path folder;

  private static Path study;
  private static SortedMap<String, String> tables;

  @BeforeAll
  static void measureTheFolder() throws Exception {
    NetworkFiles.keys(shared);
    study = shared.resolve("study");
    ScanPlan plan = ScanPlan.raster(new ScanSize(19, 96, 496), 3.87, 6.4, 6.4, 0);
    VisitFolder visits = new VisitFolder(study, plan);
    visits.write("right", Laterality.RIGHT, 0, 60, 0);
    visits.write("left", Laterality.LEFT, 0, 0, 80);
    tables = tables(study, shared.resolve("run"));
    assertEquals(
        List.of("boundaries", "fluid.csv", "quality.csv", "sectors.csv"),
        tables.keySet().stream().map(name -> name.replaceAll("/.*", "")).distinct().toList());
    assertTrue(Folders.rows(shared.resolve("run/sectors.csv")).size() > 100);
  }

  @Test
  void sentByAnotherToUs() throws Exception {
    try (StorageListener listener = StorageListener.start(settings("plain"), (kind, line) -> {})) {
      run(
          "storescu",
          "-aec",
          AET,
          "+sd",
          NetworkFiles.HOST,
          "" + listener.port(),
          study.toString());
    }

    assertEquals(tables, tables(folder.resolve("plain"), folder.resolve("run")));
  }

  @Test
  void sentByAnotherToUsSecurely() throws Exception {
    ListenerSettings secured =
        settings("secured")
            .secured(
                Optional.of(
                    TlsFiles.context(
                        Optional.of(shared.resolve("key.p12")),
                        Optional.empty(),
                        Files.readString(shared.resolve("password")).strip().toCharArray())),
                false);
    try (StorageListener listener = StorageListener.start(secured, (kind, line) -> {})) {
      run(
          "storescu",
          "+tla",
          "+cf",
          shared.resolve("certificate.pem").toString(),
          "-aec",
          AET,
          "+sd",
          NetworkFiles.HOST,
          "" + listener.port(),
          study.toString());
    }

    assertEquals(tables, tables(folder.resolve("secured"), folder.resolve("run")));
  }

  @Test
  void sentByUsToAnother() throws Exception {
    Path out = Files.createDirectories(folder.resolve("theirs"));
    List<String> call = List.of("storescp", "-aet", AET, "-od", out.toString());
    try (PeerProcess theirs = PeerProcess.start(folder.resolve("log"), call)) {
      String to = AET + "@" + NetworkFiles.HOST + ":" + theirs.port(0);
      Call sent = Call.isopach("send", study, "--to", to, "--retries", 6);
      assertEquals(0, sent.code(), sent.err() + theirs.state());
    }

    assertEquals(tables, tables(out, folder.resolve("run")));
  }

  private ListenerSettings settings(String name) {
    return ListenerSettings.usual(0, AET, folder.resolve(name));
  }

  private static SortedMap<String, String> tables(Path in, Path run) throws IOException {
    Call call = Call.isopach("measure", in, "--out", run, "--skip", "pictures,objects,reports");
    assertEquals(0, call.code(), call.err());
    return Folders.results(run);
  }

  private static void run(String... words) throws Exception {
    Process process =
        new ProcessBuilder(new ArrayList<>(List.of(words))).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), said);
  }
}
