package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A scan recoded by the general-purpose tools dcmtk and gdcm has the same tables: byte for byte
 * without loss, sectors within 1 um with loss.
 */
class RecodedTest {
  private static final double LOSSY_UM = 1.0;

  @TempDir static Path shared;
  @TempDir Path folder;

  private static Path original;
  private static Path plain;

  @BeforeAll
  static void measureOriginal() throws IOException {
    original =
        StoredScan.of(ScanPlan.raster(new ScanSize(19, 128, 400), 3.87, 6.4, 6.4, 0))
            .write(shared, "scan");
    StoredScan.writeLocalizer(shared.resolve("fundus"), true);
    plain = shared.resolve("run");
    assertEquals(30, measured(original, plain).size());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "1.2.840.10008.1.2, dcmconv +ti",
    "1.2.840.10008.1.2.2, dcmconv +tb",
    "1.2.840.10008.1.2.1.99, dcmconv +td",
    "1.2.840.10008.1.2.5, dcmcrle",
    "1.2.840.10008.1.2.4.70, dcmcjpeg +e1",
    "1.2.840.10008.1.2.4.57, dcmcjpeg +el",
    "1.2.840.10008.1.2.4.80, dcmcjpls",
    "1.2.840.10008.1.2.4.90, gdcmconv --j2k"
  })
  void withoutLossTheTablesAreTheSame(String syntax, String command) throws IOException {
    Path run = folder.resolve("run");
    measured(recoded(syntax, command), run);
    SortedMap<String, String> expected = Folders.results(plain);
    assertEquals(4, expected.size(), "sectors, fluid, quality and boundaries");
    assertEquals(expected, Folders.results(run));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "1.2.840.10008.1.2.4.50, dcmcjpeg +eb +q 90",
    "1.2.840.10008.1.2.4.91, gdcmconv --j2k --lossy -q 45"
  })
  void withLossSectorsAreNear(String syntax, String command) throws IOException {
    List<List<String>> expected = Folders.ofWholeRetina(Folders.rows(plain.resolve("sectors.csv")));
    List<List<String>> actual = measured(recoded(syntax, command), folder.resolve("run"));
    assertEquals(expected.size(), actual.size());
    double worst = 0;
    for (int i = 0; i < expected.size(); i++) {
      assertEquals(expected.get(i).subList(6, 9), actual.get(i).subList(6, 9));
      double before = Double.parseDouble(expected.get(i).get(9));
      worst = Math.max(worst, Math.abs(before - Double.parseDouble(actual.get(i).get(9))));
    }
    assertNotEquals(0, worst, "something was lost");
    assertTrue(worst <= LOSSY_UM, worst + " um");
  }

  private static List<List<String>> measured(Path scan, Path run) throws IOException {
    Call call =
        Call.isopach(
            "measure",
            scan,
            shared.resolve("fundus"),
            "--out",
            run,
            "--skip",
            "pictures,objects,reports");
    assertEquals(0, call.code(), call.err());
    return Folders.ofWholeRetina(Folders.rows(run.resolve("sectors.csv")));
  }

  private Path recoded(String syntax, String command) throws IOException {
    Path target = folder.resolve("recoded");
    List<String> line = new ArrayList<>(List.of(command.split(" ")));
    line.add(original.toString());
    line.add(target.toString());
    Process process = new ProcessBuilder(line).redirectErrorStream(true).start();
    String words = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    try {
      assertEquals(0, process.waitFor(), words);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
    String head = new String(Files.readAllBytes(target), 0, 1024, StandardCharsets.ISO_8859_1);
    assertTrue(head.contains(syntax + "\0") || head.contains(syntax), "recoded to " + syntax);
    return target;
  }
}
