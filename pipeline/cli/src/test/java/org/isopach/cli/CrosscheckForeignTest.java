package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
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
  private static final double PIXEL_UM = 3.87;
  private static final String LAYERS = "ILM-RPE,ILM-BM,GCL+IPL";
  private static final Code TO_RPE = new Code("111928", "DCM", "Total retinal thickness");
  private static final Code FLUID = new Code("F-001", "99GANNET", "Wet place");
  private static final Code OTHER_FLUID = new Code("F-002", "99GANNET", "Another wet place");

  /** Mean distance of a quarter ring of 0.5 to 1.5 mm from its centre, along its middle. */
  private static final double INNER_MM =
      2.0
          / 3
          * (Math.pow(1.5, 3) - Math.pow(0.5, 3))
          / (1.5 * 1.5 - 0.5 * 0.5)
          * Math.sin(Math.PI / 4)
          / (Math.PI / 4);

  @TempDir static Path shared;

  private static Path in;
  private static Path objects;
  private static Path elsewhere;
  private static Call call;
  private static List<Map<String, String>> lines;

  @BeforeAll
  static void crosscheckOneScan() throws Exception {
    Path study = shared.resolve("study");
    PhantomStudy.wet(ScanPlan.raster(new ScanSize(25, 128, 496), PIXEL_UM, 6.4, 6.4, 0))
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
    elsewhere = run.resolve("objects");
    // The right eye's scan and image; of the left eye only objects.
    Files.copy(files.get(0), in.resolve("a"));
    Files.copy(files.get(1), in.resolve("b"));
    writeObjects(right(run), left(run));
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

  private static String right(Path run) throws IOException {
    return scan(run, "R");
  }

  private static String left(Path run) throws IOException {
    return scan(run, "L");
  }

  private static String scan(Path run, String eye) throws IOException {
    return Folders.rows(run.resolve("sectors.csv")).stream()
        .filter(row -> row.get(5).equals(eye))
        .findFirst()
        .orElseThrow()
        .get(3);
  }

  private static void writeObjects(String scan, String leftScan) throws Exception {
    Path report = elsewhere.resolve(scan + "_grid-report.dcm");
    Path heights = elsewhere.resolve(scan + "_height-maps.dcm");
    Path regions = elsewhere.resolve(scan + "_regions.dcm");
    Path map = elsewhere.resolve(scan + "_ILM-RPE.dcm");
    Path field = elsewhere.resolve(scan + "_RNFL-GCL-IPL-INL.dcm");
    Files.copy(report, objects.resolve("ours"));
    ForeignObject.of(heights, "2.25.1001").pixels(b -> lower(b, 7)).write(name("heights"));
    ForeignObject.of(heights, "2.25.1002")
        .inEvery(
            Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE,
            item -> of(item).value().equals("128299") ? code("128298", "Centre of the RPE") : item)
        .write(name("centre-of-rpe"));
    ForeignObject.of(report, "2.25.1003")
        .inEvery(
            Tags.CONCEPT_CODE_SEQUENCE,
            item -> of(item).value().equals("111928") ? code("111929", "ILM to BM") : item)
        .write(name("report-to-bm"));
    ForeignObject.of(report, "2.25.1004")
        .inEvery(
            Tags.MEASURED_VALUE_SEQUENCE,
            item ->
                item.toBuilder()
                    .items(
                        Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, new Code("mm", "UCUM", "mm").toItem())
                    .build())
        .write(name("report-in-mm"));
    ForeignObject.of(report, "2.25.1015").write(name("report-alike"));
    ForeignObject.of(regions, "2.25.1005")
        .inEvery(Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE, item -> renamed(item))
        .write(name("regions"));
    ForeignObject.of(heights, "2.25.1006")
        .inEvery(
            Tags.SEGMENT_IDENTIFICATION_SEQUENCE,
            item -> item.toBuilder().numbers(Tags.REFERENCED_SEGMENT_NUMBER, Vr.US, 99).build())
        .write(name("heights-of-no-segment"));
    byte[] whole = Files.readAllBytes(ForeignObject.of(heights, "2.25.1007").write(name("cut")));
    Files.write(name("cut"), Arrays.copyOf(whole, whole.length - 1000));
    ForeignObject.of(report, "2.25.1008")
        .with(b -> b.text(Tags.PATIENT_ID, Vr.LO, "TSEU-99999"))
        .write(name("other-patient"));
    ForeignObject.of(elsewhere.resolve(leftScan + "_height-maps.dcm"), "2.25.1009")
        .write(name("left-eye"));
    ForeignObject.of(field, "2.25.1010")
        .with(b -> b.numbers(Tags.ROWS, Vr.US, 161).numbers(Tags.COLUMNS, Vr.US, 321))
        .inEvery(Tags.PIXEL_MEASURES_SEQUENCE, item -> spacing(item, "0.05", "0.025"))
        .inEvery(Tags.PLANE_POSITION_SEQUENCE, CrosscheckForeignTest::fromTheRight)
        .inEvery(
            Tags.PLANE_ORIENTATION_SEQUENCE,
            item ->
                item.toBuilder()
                    .text(Tags.IMAGE_ORIENTATION_PATIENT, Vr.DS, "-1", "0", "0", "0", "0", "-1")
                    .build())
        .inEvery(
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE, item -> mapping(item, "mm", 0.001, -1e6, 1e6))
        .pixels(b -> slope(161, 321, 0.05, -0.025, true))
        .write(name("mirrored-field"));
    ForeignObject.of(field, "2.25.1011")
        .inEvery(
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
            item -> item.toBuilder().remove(Tags.QUANTITY_DEFINITION_SEQUENCE).build())
        .write(name("field-of-something"));
    ForeignObject.of(field, "2.25.1014")
        .inEvery(Tags.PIXEL_MEASURES_SEQUENCE, item -> spacing(item, "1e-9", "1e-9"))
        .write(name("field-of-no-size"));
    ForeignObject thickness = ForeignObject.of(map, "2.25.1012");
    thickness
        .with(
            b ->
                b.numbers(Tags.ROWS, Vr.US, 161)
                    .numbers(Tags.COLUMNS, Vr.US, 101)
                    .text(Tags.PIXEL_SPACING, Vr.DS, "0.05", "0.08"))
        .with(b -> register(b, thickness.first(Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE)))
        .with(
            b ->
                b.items(
                    Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
                    integerMapping(thickness.first(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE))))
        .pixels(b -> slope(161, 101, 0.05, -0.08, false))
        .write(name("mirrored-map"));
    ForeignObject.of(report, "2.25.1013")
        .inEvery(
            Tags.CONTENT_SEQUENCE,
            item -> item.toBuilder().remove(Tags.REFERENCED_SOP_SEQUENCE).build())
        .write(name("report-without-source"));
  }

  private static Path name(String name) {
    return objects.resolve(name);
  }

  private static Code of(Dataset item) {
    return Code.of(item).orElseThrow();
  }

  private static Dataset code(String value, String meaning) {
    return new Code(value, "DCM", meaning).toItem();
  }

  /** Two of our kinds under other systems' codes; the third keeps ours. */
  private static Dataset renamed(Dataset item) {
    return switch (of(item).value()) {
      case "1" -> OTHER_FLUID.toItem();
      case "2" -> FLUID.toItem();
      default -> item;
    };
  }

  private static byte[] lower(byte[] floats, double um) {
    ByteBuffer buffer = ByteBuffer.wrap(floats).order(ByteOrder.LITTLE_ENDIAN);
    for (int at = 0; at < floats.length; at += Float.BYTES) {
      buffer.putFloat(at, (float) (buffer.getFloat(at) + um / PIXEL_UM));
    }
    return floats;
  }

  private static Dataset spacing(Dataset item, String row, String column) {
    return item.toBuilder().text(Tags.PIXEL_SPACING, Vr.DS, row, column).build();
  }

  /** From the first cell of our lattice, 3 mm left of the centre, to one 4 mm right and 4 up. */
  private static Dataset fromTheRight(Dataset item) {
    List<String> old = item.texts(Tags.IMAGE_POSITION_PATIENT);
    return item.toBuilder()
        .text(
            Tags.IMAGE_POSITION_PATIENT,
            Vr.DS,
            decimal(Double.parseDouble(old.get(0)) + 7),
            "0",
            decimal(Double.parseDouble(old.get(2)) + 1))
        .build();
  }

  private static String decimal(double value) {
    String text = Double.toString(value);
    return text.substring(0, Math.min(16, text.length()));
  }

  private static Dataset mapping(Dataset item, String unit, double slope, double from, double to) {
    return item.toBuilder()
        .items(
            Tags.QUANTITY_DEFINITION_SEQUENCE,
            Dataset.builder().items(Tags.CONCEPT_CODE_SEQUENCE, TO_RPE.toItem()).build())
        .items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, new Code(unit, "UCUM", unit).toItem())
        .numbers(Tags.REAL_WORLD_VALUE_SLOPE, Vr.FD, slope)
        .numbers(Tags.REAL_WORLD_VALUE_INTERCEPT, Vr.FD, 0)
        .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.FD, from)
        .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.FD, to)
        .build();
  }

  private static Dataset integerMapping(Dataset item) {
    return item.toBuilder()
        .numbers(Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.US, 1)
        .numbers(Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.US, 65535)
        .numbers(Tags.REAL_WORLD_VALUE_SLOPE, Vr.FD, 0.01)
        .numbers(Tags.REAL_WORLD_VALUE_INTERCEPT, Vr.FD, 0)
        .build();
  }

  /** Our map reaches 3.01 mm to every side; this one 4.025 mm up and down, 4.04 mm across. */
  private static void register(Dataset.Builder object, Dataset old) {
    double[] first = corner(old, Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER);
    double[] last = corner(old, Tags.REGISTERED_LOCALIZER_BOTTOM_RIGHT_HAND_CORNER);
    double down = (last[0] - first[0]) / 2 / 3.01 * 4.025;
    double across = (last[1] - first[1]) / 2 / 3.01 * 4.04;
    double row = (first[0] + last[0]) / 2;
    double column = (first[1] + last[1]) / 2;
    object.items(
        Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE,
        old.toBuilder()
            .numbers(
                Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER,
                Vr.FL,
                (float) (row - down),
                (float) (column + across))
            .numbers(
                Tags.REGISTERED_LOCALIZER_BOTTOM_RIGHT_HAND_CORNER,
                Vr.FL,
                (float) (row + down),
                (float) (column - across))
            .build());
  }

  private static double[] corner(Dataset item, int tag) {
    return ((org.isopach.dicom.data.Element.Numbers) item.element(tag).orElseThrow())
        .values().stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** 300 um at the middle, 10 um more for each mm to the right, 20 um less for each mm down. */
  private static byte[] slope(int rows, int columns, double downMm, double acrossMm, boolean real) {
    ByteBuffer buffer =
        ByteBuffer.allocate(rows * columns * (real ? Float.BYTES : Short.BYTES))
            .order(ByteOrder.LITTLE_ENDIAN);
    for (int row = 0; row < rows; row++) {
      for (int column = 0; column < columns; column++) {
        double x = (column - (columns - 1) / 2.0) * acrossMm;
        double y = (row - (rows - 1) / 2.0) * downMm;
        double um = 300 + 10 * x - 20 * y;
        if (real) {
          buffer.putFloat((float) um);
        } else {
          buffer.putShort((short) Math.round(um * 100));
        }
      }
    }
    return buffer.array();
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
    // Two could not even be recognised; they are named by their files.
    assertEquals(Folders.files(objects).size() - 2, mentioned.size());
  }

  @Test
  void malformedObjectsAreNamedWithWhatIsWrong() {
    assertNotCompared(of("2.25.1006"), "cannot be used: a frame names");
    assertNotCompared(of("2.25.1014"), "cannot be used: pixels of a map need an area");
    assertTrue(call.err().contains("has the unit \"mm\""), call.err());
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
