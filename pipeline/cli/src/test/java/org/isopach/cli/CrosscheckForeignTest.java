package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Objects of an invented other system about one scan: what it found elsewhere by a known amount is
 * told so, what it means otherwise is named, whatever is wrong with an object is said.
 */
class CrosscheckForeignTest {
  private static final String LAYERS = "ILM-RPE,ILM-BM,GCL+IPL";

  /** Mean distance of a quarter ring of 0.5 to 1.5 mm from its centre, along its middle. */
  private static final double INNER_MM =
      2.0
          / 3
          * (Math.pow(1.5, 3) - Math.pow(0.5, 3))
          / (1.5 * 1.5 - 0.5 * 0.5)
          * Math.sin(Math.PI / 4)
          / (Math.PI / 4);

  private static final String VOLUME_OF_SECTOR = "(V-1, 99GANNET, \"Volume of a sector\")";

  @TempDir static Path shared;

  private static Path in;
  private static Path objects;
  private static Call call;
  private static List<Map<String, String>> lines;

  @BeforeAll
  static void crosscheckOneScan() throws Exception {
    Path study = shared.resolve("study");
    PhantomStudy.wet(
            ScanPlan.raster(new ScanSize(25, 128, 496), ForeignFolder.PIXEL_UM, 6.4, 6.4, 0))
        .write(study);
    List<Path> files = Folders.files(study);
    for (Path file : files.subList(4, 8)) {
      Files.delete(file);
    }
    Path run = shared.resolve("run");
    Call measured =
        Call.isopach("measure", study, "--out", run, "--layer", LAYERS, "--skip", "pictures");
    assertTrue(measured.code() == 0 || measured.code() == 3, measured.err());
    in = Files.createDirectory(shared.resolve("in"));
    objects = Files.createDirectory(in.resolve("objects"));
    // The right eye's scan and image; of the left eye only objects.
    Files.copy(files.get(0), in.resolve("a"));
    Files.copy(files.get(1), in.resolve("b"));
    new ForeignFolder(run.resolve("objects"), objects).write(scan(run, "R"), scan(run, "L"));
    Path out = shared.resolve("out");
    call =
        Call.isopach(
            "crosscheck",
            in,
            "--out",
            out,
            "--layer",
            LAYERS,
            "--segment",
            "99GANNET:F-002=intraretinal-fluid",
            "--skip",
            "pictures,boundaries");
    lines = CrossRows.of(out.resolve("crosscheck.csv"));
  }

  private static String scan(Path run, String eye) throws IOException {
    return Folders.rows(run.resolve("sectors.csv")).stream()
        .filter(row -> row.get(5).equals(eye))
        .findFirst()
        .orElseThrow()
        .get(3);
  }

  private static Path name(String name) {
    return objects.resolve(name);
  }

  private static List<Map<String, String>> of(String uid) {
    List<Map<String, String>> found =
        lines.stream().filter(line -> line.get("object_uid").equals(uid)).toList();
    assertTrue(!found.isEmpty(), uid + " is in no line");
    return found;
  }

  private static Map<String, String> only(String uid, String column, String value) {
    List<Map<String, String>> found =
        of(uid).stream().filter(line -> line.get(column).equals(value)).toList();
    assertEquals(1, found.size(), value + ": " + of(uid));
    return found.get(0);
  }

  private static void assertNotCompared(List<Map<String, String>> some, String reason) {
    for (Map<String, String> line : some) {
      assertEquals("false", line.get("comparable"), line.toString());
      assertEquals("", line.get("difference"), line.toString());
      assertTrue(line.get("reason").contains(reason), line.toString());
    }
  }

  @Test
  void heightsSevenMicrometresLowerAreToldSo() {
    for (Map<String, String> line : of("2.25.1001")) {
      assertEquals("true", line.get("comparable"), line.toString());
      assertEquals(7, Double.parseDouble(line.get("difference")), 0.001, line.toString());
      assertEquals(7, Double.parseDouble(line.get("mean_absolute_um")), 0.001);
      assertEquals(7, Double.parseDouble(line.get("absolute_p95_um")), 0.001);
      assertEquals(0, Double.parseDouble(line.get("sd_difference_um")), 0.001);
    }
  }

  @Test
  void anotherSurfaceOfTheSameBandIsNamedAndNotCompared() {
    Map<String, String> line = only("2.25.1002", "our_definition", "RPE");
    assertNotCompared(List.of(line), "ours is the outer surface of the RPE, not its centre");
    assertTrue(line.get("their_definition").contains("128298"), line.toString());
    assertEquals("0.000", only("2.25.1002", "our_definition", "BM").get("difference"));
  }

  @Test
  void aReportToBruchsMembraneIsShownBesideOursAndNotSubtracted() {
    assertNotCompared(of("2.25.1003"), "definitions differ: the report states (111929");
    Map<String, String> centre = only("2.25.1003", "place", "centre");
    assertEquals("ILM-RPE", centre.get("our_definition"));
    assertTrue(!centre.get("theirs").isEmpty() && !centre.get("ours").isEmpty());
  }

  @Test
  void anUnknownSegmentIsNamedAndOneWhoseMeaningIsGivenIsCompared() {
    List<Map<String, String>> some = of("2.25.1005");
    Map<String, String> unknown =
        some.stream()
            .filter(line -> line.get("their_definition").contains("F-001"))
            .findFirst()
            .orElseThrow();
    assertNotCompared(List.of(unknown), "no region of ours has this code");
    assertEquals("", unknown.get("our_definition"));
    Map<String, String> given =
        some.stream()
            .filter(line -> line.get("their_definition").contains("F-002"))
            .findFirst()
            .orElseThrow();
    assertEquals("intraretinal-fluid", given.get("our_definition"));
    assertEquals("1.0000", given.get("dice"));
  }

  /** All numbers in mm, and the volume of a sector under a code of their own. */
  @Test
  void otherUnitsAndOtherNumbersAreNamedOneByOne() {
    Map<String, String> sector = only("2.25.1004", "their_definition", VOLUME_OF_SECTOR);
    assertNotCompared(List.of(sector), "has no value of this code");
    List<Map<String, String>> rest =
        of("2.25.1004").stream().filter(line -> !line.equals(sector)).toList();
    assertEquals(11, rest.size());
    assertNotCompared(
        rest.stream().filter(line -> !line.get("reason").endsWith("no value")).toList(),
        "units differ: the report has ");
    assertTrue(only("2.25.1004", "place", "centre").get("reason").contains("in \"mm\" (UCUM)"));
  }

  /** The same voxels, stored as fractions of 1 and of just under a half. */
  @Test
  void fractionsAreComparedAtAHalfAndNamedSo() {
    for (Map<String, String> line : of("2.25.1016")) {
      assertEquals("1.0000", line.get("dice"), line.toString());
      assertEquals("0.0000", line.get("difference"), line.toString());
      assertTrue(
          line.get("their_definition").endsWith("where fraction >= 0.5 (PROBABILITY)"),
          line.toString());
      assertTrue(
          line.get("remark").startsWith("definitions differ: theirs are fractions"),
          line.toString());
    }
    for (Map<String, String> line : of("2.25.1017")) {
      assertEquals("0", line.get("their_voxels"), line.toString());
      assertEquals("0.0000", line.get("dice"), line.toString());
    }
    assertTrue(call.out().contains("theirs are fractions"), call.out());
  }

  @Test
  void aLabelMapHasOurVoxels() {
    List<Map<String, String>> labels = of("2.25.1018");
    assertTrue(labels.size() > 1, labels.toString());
    for (Map<String, String> line : labels) {
      assertEquals("1.0000", line.get("dice"), line.toString());
      assertEquals("", line.get("remark"), line.toString());
    }
  }

  @Test
  void framesThatTheScanDoesNotHaveAreNamed() {
    assertNotCompared(of("2.25.1019"), "its pixels are not those of the scan's frames");
  }

  /** In the right eye the nose is on the right of the picture. The sums are done by hand. */
  @Test
  void mirroredMapsOnOtherPixelsAreReadByTheirGeometry() {
    for (String uid : List.of("2.25.1010", "2.25.1012")) {
      assertEquals(300, theirs(uid, "centre"), 0.02);
      assertEquals(300 + 10 * INNER_MM, theirs(uid, "inner-nasal"), 0.02);
      assertEquals(300 - 10 * INNER_MM, theirs(uid, "inner-temporal"), 0.02);
      assertEquals(300 + 20 * INNER_MM, theirs(uid, "inner-superior"), 0.02);
      assertEquals(300 - 20 * INNER_MM, theirs(uid, "inner-inferior"), 0.02);
      assertEquals("ILM-RPE", only(uid, "place", "cells").get("our_definition"));
      assertTrue(only(uid, "place", "centre").get("remark").contains("which surface of the RPE"));
    }
    assertEquals("frame-of-reference", of("2.25.1010").get(0).get("placed_by"));
    assertEquals("fundus-image", of("2.25.1012").get(0).get("placed_by"));
  }

  private static double theirs(String uid, String place) {
    return Double.parseDouble(only(uid, "place", place).get("theirs"));
  }

  @Test
  void aMapWithoutDefinitionIsNamed() {
    assertNotCompared(of("2.25.1011"), "no layer of ours has the definition of this map");
  }

  @Test
  void whatHasNoScanHereIsNamedAndNothingIsLost() throws IOException {
    assertNotCompared(of("2.25.1009"), "the scan it was made from is not among the inputs");
    assertNotCompared(of("2.25.1008"), "of another patient");
    assertEquals("", of("2.25.1009").get(0).get("sop_uid"));
    assertEquals(3, call.code(), call.err());
    for (String name : List.of("left-eye", "other-patient", "cut", "report-in-mm")) {
      assertTrue(call.err().contains(name(name).toString()), name + call.err());
    }
    Set<String> mentioned =
        lines.stream().map(line -> line.get("object_uid")).collect(Collectors.toSet());
    // One could not even be recognised; it is named by its file.
    assertEquals(Folders.files(objects).size() - 1, mentioned.size());
  }

  @Test
  void malformedObjectsAreNamedWithWhatIsWrong() {
    assertNotCompared(of("2.25.1006"), "cannot be used: a frame names");
    assertNotCompared(of("2.25.1014"), "cannot be used: pixels of a map need an area");
    assertTrue(call.err().contains("Pixel Data claims"), call.err());
  }

  @Test
  void twoReportsOfOneScanStandBothThereWithTheirMakers() {
    List<Map<String, String>> centres =
        lines.stream()
            .filter(line -> line.get("object_kind").equals("grid-report"))
            .filter(line -> line.get("place").equals("centre"))
            .filter(line -> line.get("comparable").equals("true"))
            .toList();
    assertEquals(
        List.of("2.25.1013", "2.25.1015"),
        centres.stream()
            .filter(line -> line.get("object_software").equals(ForeignObject.SOFTWARE))
            .map(line -> line.get("object_uid"))
            .toList());
    assertEquals(3, centres.size());
    assertEquals("study-and-eye", of("2.25.1013").get(0).get("matched_by"));
    assertEquals("source-instance", of("2.25.1015").get(0).get("matched_by"));
  }

  @Test
  void saysWhatItIsFor() {
    assertTrue(call.out().contains(Cautions.LINE), call.out());
    assertTrue(call.out().contains("not compared: "), call.out());
  }

  @Test
  void aWrongMeaningOfASegmentIsAWrongCall() {
    Call wrong =
        Call.isopach("crosscheck", in, "--out", shared.resolve("no"), "--segment", "SCT:1=water");
    assertEquals(2, wrong.code());
    assertTrue(wrong.err().contains("'water' is no kind of region"), wrong.err());
  }
}
