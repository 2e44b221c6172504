package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What an earlier run of ours wrote agrees with a later run on the same scans. */
class CrosscheckTest {
  private static final String LAYERS = "ILM-BM,ILM-RPE,ILM-EZ,RNFL,GCL+IPL";

  @TempDir static Path shared;

  private static Path first;
  private static Path again;
  private static Call call;
  private static List<Map<String, String>> lines;

  @BeforeAll
  static void measureThenCrosscheck() throws IOException {
    Path study = shared.resolve("in/study");
    PhantomStudy.wet(ScanPlan.raster(new ScanSize(19, 96, 496), 3.87, 6.4, 6.4, 0)).write(study);
    first = shared.resolve("in/first");
    Call measured =
        Call.isopach("measure", study, "--out", first, "--layer", LAYERS, "--skip", "pictures");
    assertEquals(0, measured.code(), measured.err());
    again = shared.resolve("again");
    call =
        Call.isopach(
            "crosscheck",
            shared.resolve("in"),
            "--out",
            again,
            "--layer",
            LAYERS,
            "--skip",
            "boundaries",
            "--json");
    lines = CrossRows.of(again.resolve("crosscheck.csv"));
  }

  private static List<Map<String, String>> of(String kind) {
    return lines.stream().filter(line -> line.get("object_kind").equals(kind)).toList();
  }

  private static List<Map<String, String>> comparable(String kind) {
    return of(kind).stream().filter(line -> line.get("comparable").equals("true")).toList();
  }

  private static long objects(String kind) {
    return of(kind).stream().map(line -> line.get("object_uid")).distinct().count();
  }

  @Test
  void everyObjectIsMatchedByItsSource() throws IOException {
    assertEquals(0, call.code(), call.err());
    long files =
        Folders.files(first.resolve("objects")).stream()
            .filter(file -> !file.toString().matches(".*(_en-face|_report)\\.dcm"))
            .count();
    assertEquals(files, lines.stream().map(line -> line.get("object_uid")).distinct().count());
    for (Map<String, String> line : lines) {
      assertEquals("source-instance", line.get("matched_by"), line.toString());
      assertTrue(line.get("object_software").startsWith("Isopach "), line.toString());
    }
    assertEquals(
        List.of("grid-report", "height-map", "parametric-map", "segmentation", "thickness-map"),
        lines.stream().map(line -> line.get("object_kind")).distinct().sorted().toList());
  }

  @Test
  void reportsDifferByNothing() throws IOException {
    assertEquals(4, objects("grid-report"));
    Map<String, String> table = new TreeMap<>();
    for (List<String> row : Folders.rows(again.resolve("sectors.csv"))) {
      boolean total = row.get(8).equals("total");
      table.put(row.get(3) + row.get(6) + row.get(8), row.get(total ? 15 : 9));
      table.put(row.get(3) + row.get(6) + "centre-point", row.get(21));
    }
    for (Map<String, String> line : of("grid-report")) {
      String ours = table.get(line.get("sop_uid") + "ILM-RPE" + line.get("place"));
      assertEquals(ours, line.get("ours"), line.toString());
      assertEquals(ours, line.get("theirs"), line.toString());
      assertEquals(Boolean.toString(!ours.isEmpty()), line.get("comparable"), line.toString());
      if (!ours.isEmpty()) {
        assertEquals(0, Double.parseDouble(line.get("difference")), line.toString());
      }
      assertEquals(line.get("place").equals("total") ? "mm3" : "um", line.get("unit"));
    }
    assertEquals(4 * 11, of("grid-report").size());
    assertTrue(comparable("grid-report").size() > 20, lines.toString());
  }

  @Test
  void surfacesDifferByNothing() {
    assertEquals(4, objects("height-map"));
    for (Map<String, String> line : of("height-map")) {
      assertEquals("0.000", line.get("difference"), line.toString());
      assertEquals("0.000", line.get("absolute_p95_um"), line.toString());
      assertEquals("0", line.get("only_theirs"));
      assertEquals("0", line.get("only_ours"));
      assertTrue(Integer.parseInt(line.get("pairs")) > 0, line.toString());
    }
  }

  /** A thickness map stores steps of at most 1/16 um, a parametric map what a float holds. */
  @Test
  void mapsDifferByTheirStepAtMost() {
    assertEquals(4 * 4, objects("thickness-map"));
    assertEquals(4, objects("parametric-map"));
    assertEquals(4 * 4 * 12, of("thickness-map").size());
    for (Map<String, String> line : comparable("thickness-map")) {
      assertEquals("fundus-image", line.get("placed_by"), line.toString());
      assertEquals(0, Double.parseDouble(line.get("difference")), 0.032, line.toString());
    }
    for (Map<String, String> line : comparable("parametric-map")) {
      assertEquals("frame-of-reference", line.get("placed_by"), line.toString());
      assertEquals("RNFL-GCL-IPL-INL", line.get("our_definition"));
      assertEquals(0, Double.parseDouble(line.get("difference")), 0.0005, line.toString());
      if (line.get("place").equals("cells")) {
        assertEquals(0, Double.parseDouble(line.get("absolute_p95_um")), 0.0005);
        assertEquals("0", line.get("only_theirs"), line.toString());
        assertEquals("0", line.get("only_ours"), line.toString());
      }
    }
  }

  @Test
  void regionsCoincide() {
    List<Map<String, String>> regions = of("segmentation");
    assertTrue(regions.size() > 1, lines.toString());
    for (Map<String, String> line : regions) {
      assertEquals("1.0000", line.get("dice"), line.toString());
      assertEquals(line.get("ours"), line.get("theirs"), line.toString());
      assertEquals("nL", line.get("unit"));
    }
  }

  @Test
  void scansGiveLimitsOfAgreementAndPlots() throws IOException {
    List<List<String>> rows = Folders.rows(again.resolve("crosscheck-agreement.csv"));
    List<String> centre =
        rows.stream()
            .filter(row -> row.get(0).equals("grid-report") && row.get(3).equals("centre"))
            .findFirst()
            .orElseThrow();
    long pairs =
        comparable("grid-report").stream()
            .filter(line -> line.get("place").equals("centre"))
            .count();
    assertTrue(pairs >= 3, lines.toString());
    assertEquals(Long.toString(pairs), centre.get(4), centre.toString());
    assertEquals(0, Double.parseDouble(centre.get(5)), 0.0006, centre.toString());
    long plotted =
        rows.stream()
            .filter(row -> row.get(3).equals("centre") || row.get(3).equals("total"))
            .filter(row -> !row.get(5).isEmpty())
            .count();
    assertTrue(plotted > 0, rows.toString());
    assertEquals(plotted, Folders.files(again.resolve("crosscheck")).size());
  }

  @Test
  void printsTheTableForPrograms() throws IOException {
    JsonNode root = new ObjectMapper().readTree(call.out());
    assertEquals(lines.size(), root.get("crosscheck").size());
    JsonNode surface = root.get("crosscheck").get(lines.indexOf(of("height-map").get(0)));
    assertTrue(surface.get("difference").isNumber() && surface.get("pairs").isNumber());
    assertTrue(surface.get("comparable").isBoolean() && surface.get("dice").isNull());
    assertEquals("crosscheck", root.at("/run/command").asText());
    List<String> kinds =
        root.at("/run/inputs").findValuesAsText("kind").stream().distinct().sorted().toList();
    assertEquals(6, kinds.size(), kinds.toString());
  }

  @Test
  void inspectionListsWhatTheyHold() {
    Call inspected = Call.isopach("inspect", shared.resolve("in"));
    assertEquals(0, inspected.code(), inspected.out());
    Map<Boolean, Long> beside =
        inspected
            .out()
            .lines()
            .filter(line -> line.contains("set beside"))
            .collect(
                Collectors.partitioningBy(
                    line -> line.contains("can be set beside the scan"), Collectors.counting()));
    int pictures = inspected.out().split("it has no numbers to compare", -1).length - 1;
    assertEquals(4 + 4, pictures, "an en face image and a report of each scan");
    assertEquals(Long.valueOf(pictures), beside.get(false), inspected.out());
    assertTrue(inspected.out().contains("Outer surface of Bruchs Membrane\"): our BM"));
    assertTrue(inspected.out().contains("(111928, DCM"), inspected.out());
  }
}
