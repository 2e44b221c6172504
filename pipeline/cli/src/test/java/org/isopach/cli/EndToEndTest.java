package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.file.FileDigest;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The whole job by the command line, on a small invented study of two eyes at two visits. */
class EndToEndTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir static Path shared;
  @TempDir Path folder;

  private static Path study;

  @BeforeAll
  static void writeStudy() throws IOException {
    study = shared.resolve("study");
    new PhantomStudy(ScanPlan.raster(new ScanSize(19, 128, 496), 3.87, 6.4, 6.4, 0)).write(study);
  }

  @Test
  void measuresEveryScanAndLeavesTheInputAlone() throws IOException {
    Map<String, String> before = Folders.digests(study);

    Call call = Call.isopach("measure", study, "--out", folder.resolve("run"));

    assertEquals(0, call.code(), call.err());
    assertEquals(before, Folders.digests(study));
    assertTrue(call.out().contains(Cautions.LINE), call.out());
    Map<String, Long> written =
        Folders.files(folder.resolve("run")).stream()
            .map(file -> folder.resolve("run").relativize(file))
            .collect(
                Collectors.groupingBy(
                    file -> file.getNameCount() == 1 ? file.toString() : file.getName(0) + "/",
                    Collectors.counting()));
    List<List<String>> all = Folders.rows(folder.resolve("run/sectors.csv"));
    long scans = all.stream().map(row -> row.get(3)).distinct().count();
    assertEquals(4, scans);
    long maps = scans * LayerCatalogue.WHOLE_RETINA.size();
    long others = scans * List.of("grid report", "height maps", "en face", "report").size();
    assertEquals(
        Map.of(
            "sectors.csv",
            1L,
            "fluid.csv",
            1L,
            "quality.csv",
            1L,
            "run.json",
            1L,
            "maps/",
            maps,
            "objects/",
            maps + others + segmentations(folder.resolve("run")),
            "reports/",
            scans,
            "boundaries/",
            scans),
        written);
    long layers = all.stream().map(row -> row.get(6)).distinct().count();
    assertEquals(4 * layers * 10, all.size(), "every scan has the same layers");
    List<List<String>> rows = Folders.ofWholeRetina(all);
    assertEquals(4 * 3 * 10, rows.size());
    for (List<String> row : rows) {
      assertEquals("true", row.get(19), row.toString());
      double mean = Double.parseDouble(row.get(9));
      assertTrue(mean > 120 && mean < 520, "a retina's thickness: " + row);
    }
  }

  /** Returns the number of scans in which a region of any kind was found, by fluid.csv. */
  private static long segmentations(Path run) throws IOException {
    return Folders.rows(run.resolve("fluid.csv")).stream()
        .filter(row -> row.get(8).equals("scan") && row.get(9).equals("true"))
        .map(row -> row.get(3))
        .distinct()
        .count();
  }

  @Test
  void givesTheSameBytesOnAnyNumberOfThreadsAndOnASecondRun() throws IOException {
    Path one = folder.resolve("one");
    Path four = folder.resolve("four");
    Call.isopach("compare", study, "--out", one, "--threads", 1);
    Call.isopach("compare", study, "--out", four, "--threads", 4);

    assertEquals(Folders.results(one), Folders.results(four));

    Files.writeString(four.resolve("sectors.csv"), "half a ta");
    Files.writeString(four.resolve(".change.csv.part"), "left behind");
    Call again = Call.isopach("compare", study, "--out", four, "--threads", 2);

    assertEquals(0, again.code(), again.err());
    assertEquals(Folders.results(one), Folders.results(four));
  }

  @Test
  void findsTheChangeThatTheStudyHas() throws IOException {
    Path run = folder.resolve("run");

    Call call =
        Call.isopach(
            "compare", study, "--out", run, "--layer", "ILM-BM", "--skip", "objects,reports");

    assertEquals(0, call.code(), call.err());
    List<List<String>> rows = Folders.rows(run.resolve("change.csv"));
    assertEquals(2 * 10, rows.size());
    for (List<String> row : rows) {
      assertEquals(Integer.toString(PhantomStudy.DAYS), row.get(13), row.toString());
    }
    // The swelling of the right eye shrinks by more than 80 um at the centre; the left is healthy.
    assertTrue(change(rows, "R", "centre") < -80, rows.toString());
    assertEquals(0, change(rows, "L", "total"), 4);
    assertTrue(Files.exists(run.resolve("change")), "pictures of changes");
  }

  @Test
  void comparesWithTheVisitThatIsNamed() throws IOException {
    Path run = folder.resolve("run");
    Call.isopach("measure", study, "--out", run, "--skip", "pictures,objects,boundaries,reports");
    String last =
        Folders.rows(run.resolve("sectors.csv")).stream()
            .max((a, b) -> a.get(4).compareTo(b.get(4)))
            .orElseThrow()
            .get(1);

    Call call =
        Call.isopach(
            "compare",
            study,
            "--out",
            run,
            "--baseline",
            last,
            "--skip",
            "pictures,objects,reports");

    assertEquals(0, call.code(), call.err());
    List<List<String>> rows = Folders.rows(run.resolve("change.csv"));
    assertEquals(Integer.toString(-PhantomStudy.DAYS), rows.get(0).get(13));
    assertEquals(last, rows.get(0).get(19));
  }

  @Test
  void recordsWhatItReadAndWrote() throws IOException {
    Path run = folder.resolve("run");

    Call call =
        Call.isopach(
            "measure", study, "--out", run, "--json", "--layer", "ILM-EZ", "--skip", "pictures");

    JsonNode printed = JSON.readTree(call.out());
    JsonNode record = JSON.readTree(run.resolve("run.json").toFile());
    assertEquals(record, printed.get("run"));
    assertEquals(40, printed.get("sectors").size());
    assertTrue(printed.at("/sectors/0/mean_um").isNumber());
    assertTrue(printed.at("/sectors/0/measurable").isBoolean());
    assertEquals(4, record.get("inputs").size());
    for (JsonNode input : record.get("inputs")) {
      Path file = Path.of(input.get("location").asText());
      assertEquals(FileDigest.sha256(file), input.get("sha256").asText());
      assertEquals("measured", input.get("outcome").asText());
    }
    Map<String, String> results = Folders.results(run);
    assertEquals(results.size(), record.get("outputs").size());
    for (JsonNode output : record.get("outputs")) {
      assertEquals(results.get(output.get("file").asText()), output.get("sha256").asText());
    }
    assertEquals(3, record.get("cautions").size());
  }

  @Test
  void measuresMapsMadeElsewhereAndIgnoresItsOwnRunFolder() throws IOException {
    Path run = folder.resolve("run");
    Call.isopach("measure", study, "--out", run, "--layer", "ILM-BM", "--skip", "pictures,reports");
    Path maps = Files.createDirectory(folder.resolve("maps"));
    Path object = Folders.files(run.resolve("objects")).get(0);
    Files.copy(object, maps.resolve("a.dcm"), StandardCopyOption.REPLACE_EXISTING);

    Call call = Call.isopach("measure", maps, "--out", maps.resolve("run"));
    Call again = Call.isopach("measure", maps, "--out", maps.resolve("run"));

    assertEquals(0, call.code(), call.err());
    assertEquals(call.out(), again.out());
    List<List<String>> own = Folders.rows(run.resolve("sectors.csv"));
    List<List<String>> other = Folders.rows(maps.resolve("run/sectors.csv"));
    assertEquals(10, other.size());
    String source = object.getFileName().toString().replaceAll("_.*", "");
    List<List<String>> expected = own.stream().filter(row -> row.get(3).equals(source)).toList();
    for (int i = 0; i < 10; i++) {
      // Objects store whole tenths of a micrometre or finer; see the mapping in the object.
      assertEquals(
          Double.parseDouble(expected.get(i).get(9)), Double.parseDouble(other.get(i).get(9)), 0.1);
    }
  }

  @Test
  void goesOnAfterABrokenFileAndNamesIt() throws IOException {
    Path input = folder.resolve("input");
    Path other = Folders.files(study).get(3);
    Files.createDirectories(input);
    for (Path file : Folders.files(study).subList(0, 2)) {
      Files.copy(file, input.resolve(file.getFileName()));
    }
    byte[] bytes = Files.readAllBytes(other);
    Files.write(input.resolve("cut"), Arrays.copyOf(bytes, bytes.length / 2));
    Files.writeString(input.resolve("notes.dcm"), "not an image");
    Files.createFile(input.resolve("empty"));

    Call call =
        Call.isopach(
            "measure",
            input,
            "--out",
            folder.resolve("run"),
            "--json",
            "--skip",
            "objects,reports");

    assertEquals(3, call.code(), call.err());
    assertTrue(call.err().contains(input.resolve("cut").toString()), call.err());
    JsonNode result = JSON.readTree(call.out());
    List<String> layers = result.get("sectors").findValuesAsText("layer");
    assertEquals(10, Collections.frequency(layers, "ILM-BM"));
    assertEquals(10L * layers.stream().distinct().count(), layers.size());
    List<String> subjects =
        result.at("/run/findings").findValues("subject").stream().map(JsonNode::asText).toList();
    for (String name : List.of("cut", "notes.dcm", "empty")) {
      assertTrue(subjects.contains(input.resolve(name).toString()), subjects.toString());
    }
  }

  @Test
  void saysWhatCanBeMeasured() throws IOException {
    Call call = Call.isopach("inspect", study);

    assertEquals(0, call.code(), call.out());
    assertTrue(call.out().contains("Patient " + PhantomStudy.PATIENT_ID), call.out());
    assertTrue(call.out().contains("right eye") && call.out().contains("left eye"), call.out());
    assertTrue(call.out().contains("raster, 19 frames x 128 A-scans x 496 depths"), call.out());
    JsonNode json = JSON.readTree(Call.isopach("inspect", study, "--json").out());
    assertEquals(4, json.get("scans").size());
    assertTrue(json.at("/scans/0/grid").asBoolean());
  }

  @Test
  void correctsForAxialLengthByWideningTheFundus() throws IOException {
    Path plain = folder.resolve("plain");
    Path longEye = folder.resolve("long");
    Call.isopach(
        "measure",
        study,
        "--out",
        plain,
        "--layer",
        "ILM-BM",
        "--skip",
        "pictures,objects,reports");
    Call call =
        Call.isopach(
            "measure",
            study,
            "--out",
            longEye,
            "--layer",
            "ILM-BM",
            "--axial-length",
            "R=26.0",
            "--skip",
            "pictures");

    assertEquals(0, call.code(), call.err());
    List<String> before = Folders.rows(plain.resolve("sectors.csv")).get(0);
    List<String> after = Folders.rows(longEye.resolve("sectors.csv")).get(0);
    // Bennett, Rudnicka and Edgar 1994: 26 mm against 24 mm gives 1.09017 (constants from memory).
    assertEquals("R", after.get(5));
    assertEquals(
        1.09017 * Double.parseDouble(before.get(16)), Double.parseDouble(after.get(16)), 0.02);
    assertFalse(before.get(9).equals(after.get(9)));
    List<String> leftBefore = Folders.rows(plain.resolve("sectors.csv")).get(39);
    assertEquals(leftBefore, Folders.rows(longEye.resolve("sectors.csv")).get(39));
  }

  private static double change(List<List<String>> rows, String eye, String sector) {
    return rows.stream()
        .filter(row -> row.get(5).equals(eye) && row.get(8).equals(sector))
        .mapToDouble(row -> Double.parseDouble(row.get(11)))
        .findFirst()
        .orElseThrow();
  }
}
