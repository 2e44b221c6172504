package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import org.isopach.fixtures.dicom.NerveCase;
import org.isopach.fixtures.phantom.NerveTruth;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command about the optic nerve: one run over sound scans and scans that must be refused. */
class NerveTest {
  private static final List<NerveCase> CASES =
      List.of(
          NerveCase.SOUND_CIRCLE,
          NerveCase.BACKWARD_CIRCLE,
          NerveCase.TRUNCATED_CIRCLE,
          NerveCase.CIRCLE_OFF_DISC,
          NerveCase.SMALL_CIRCLE,
          NerveCase.CIRCLE_ON_FOVEA,
          NerveCase.ATROPHY_BEYOND_CIRCLE,
          NerveCase.ATROPHY_IN_VOLUME);

  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir static Path shared;
  @TempDir Path folder;

  private static final Map<NerveCase, PhantomScan> SCANS = new TreeMap<>();
  private static Call call;
  private static Path run;

  @BeforeAll
  static void measure() throws IOException {
    Path in = shared.resolve("in");
    for (NerveCase one : CASES) {
      SCANS.put(one, one.write(in.resolve(one.folderName())));
    }
    Files.writeString(in.resolve("letter.txt"), "no scan");
    run = shared.resolve("run");
    call = Call.isopach("nerve", in, "--out", run);
  }

  @Test
  void measuresWhatCanBeMeasuredAndNamesTheRest() throws IOException {
    assertEquals(3, call.code(), call.err());
    assertTrue(call.out().contains(Cautions.LINE));
    assertEquals(List.of("CIRCLE_NOT_CHECKED"), kinds(NerveCase.SOUND_CIRCLE));
    assertEquals(List.of("CIRCLE_NOT_CHECKED"), kinds(NerveCase.BACKWARD_CIRCLE));
    assertTrue(kinds(NerveCase.TRUNCATED_CIRCLE).contains("CIRCLE_TRUNCATED"));
    assertTrue(kinds(NerveCase.CIRCLE_OFF_DISC).contains("CIRCLE_OFF_DISC"));
    assertTrue(kinds(NerveCase.CIRCLE_ON_FOVEA).contains("NOT_A_NERVE_SCAN"));
    assertTrue(kinds(NerveCase.ATROPHY_BEYOND_CIRCLE).contains("ATROPHY_BEYOND_CIRCLE"));
    assertTrue(kinds(NerveCase.SMALL_CIRCLE).contains("DIAMETER_UNUSUAL"));
    assertTrue(kinds(NerveCase.SMALL_CIRCLE).contains("NO_NORMAL_LIMITS"));
    for (NerveCase refused : List.of(NerveCase.TRUNCATED_CIRCLE, NerveCase.CIRCLE_ON_FOVEA)) {
      assertEquals(0, rows(refused).size(), refused + " has no numbers");
      assertFalse(Files.exists(profile(refused, "csv")), refused + " has no profile");
    }
  }

  @Test
  void writesEveryValueOfACircleWithWhatItIs() throws IOException {
    List<List<String>> rows = rows(NerveCase.SOUND_CIRCLE);

    // The whole, 4 quadrants, 12 clock hours, 6 sectors from either origin.
    assertEquals(1 + 4 + 12 + 6 + 6, rows.size());
    for (List<String> row : rows) {
      assertEquals("rnfl", row.get(7));
      assertEquals("um", row.get(11));
      assertEquals("true", row.get(23), row.toString());
      assertTrue(Double.parseDouble(row.get(16)) >= 0.9, "coverage");
      assertEquals("3.460", row.get(17));
      assertEquals("horizontal", row.get(18));
    }
    NerveTruth truth = SCANS.get(NerveCase.SOUND_CIRCLE).truth().nerve().orElseThrow();
    assertEquals(truth.globalMeanUm(), value(rows, "", "global"), 4.0);
    List<String> quadrants = List.of("temporal", "superior", "nasal", "inferior");
    for (int i = 0; i < quadrants.size(); i++) {
      assertEquals(
          truth.quadrantMeansUm().get(i),
          value(rows, "quadrants", quadrants.get(i)),
          6.0,
          quadrants.get(i));
    }
    double hours =
        rows.stream()
            .filter(row -> row.get(9).equals("clock-hours"))
            .mapToDouble(row -> Double.parseDouble(row.get(12)))
            .average()
            .orElseThrow();
    // Both rounded to a tenth.
    assertEquals(value(rows, "", "global"), hours, 0.1);
  }

  @Test
  void saysWithEveryPercentileOfALoneCircleThatItsPlaceWasNotChecked() throws IOException {
    List<List<String>> placed =
        rows(NerveCase.SOUND_CIRCLE).stream().filter(row -> !row.get(25).isEmpty()).toList();

    // The whole and four quadrants: more is not published.
    assertEquals(5, placed.size());
    for (List<String> row : placed) {
      assertTrue(
          String.join(",", row).contains("centred on the disc was not checked"), row.toString());
    }
    String svg = Files.readString(profile(NerveCase.SOUND_CIRCLE, "svg"));
    assertTrue(svg.contains("was not checked"), "on the plot too");
  }

  @Test
  void saysOnTheScreenOnceWhatHoldsForAllAndWithEachScanWhatHoldsForIt() {
    String out = call.out();

    // Two sound circles, the small one and the one through atrophy.
    assertEquals(4, count(out, "; centring not checked"));
    assertEquals(1, count(out, "Centring not checked: "));
    assertEquals(1, count(out, "indicative: the reference was measured with other instruments"));
    assertEquals(1, count(out, "column place"));
    assertEquals(1, count(out, "A place in a group is no finding"));
    assertTrue(out.contains("look: atrophy beyond circle (temporal"), out);
    assertTrue(out.contains("global not measurable, off-disc: the circle runs into"), out);
    assertTrue(out.contains("95 % interval"), out);
    assertFalse(out.contains("µ") || out.contains("-0.0"), "plain signs, no minus zero");
    assertEquals(1, count(call.err(), "was not checked"), call.err());
  }

  private static int count(String text, String part) {
    return text.split(Pattern.quote(part), -1).length - 1;
  }

  @Test
  void refusesTheNumbersOfACircleOffTheDisc() throws IOException {
    List<List<String>> rows = rows(NerveCase.CIRCLE_OFF_DISC);

    assertEquals(29, rows.size());
    for (List<String> row : rows) {
      assertEquals("", row.get(12), row.toString());
      assertEquals("false", row.get(23));
      assertTrue(row.get(24).startsWith("off-disc: the circle runs into the disc"), row.get(24));
      assertEquals("", row.get(25), "no percentile");
      assertTrue(last(row).contains("circle-off-disc"), row.toString());
    }
    assertFalse(kinds(NerveCase.CIRCLE_OFF_DISC).contains("NO_NORMAL_LIMITS"));
    assertFalse(kinds(NerveCase.CIRCLE_OFF_DISC).contains("LOW_COVERAGE"));
  }

  @Test
  void flagsTheArcsThatRunThroughAtrophy() throws IOException {
    // The atrophy is drawn about temporal, 220 degrees wide at the disc; nasal there is none.
    List<List<String>> rows = rows(NerveCase.ATROPHY_BEYOND_CIRCLE);

    assertTrue(flags(rows, "", "global").contains("atrophy-beyond-circle"));
    assertTrue(flags(rows, "quadrants", "temporal").contains("atrophy-beyond-circle"));
    assertFalse(flags(rows, "quadrants", "nasal").contains("atrophy-beyond-circle"));
    assertEquals("circle-not-checked", flags(rows(NerveCase.SOUND_CIRCLE), "", "global"));
  }

  /** The column of flags; those before it may hold commas. */
  private static String last(List<String> row) {
    return row.get(row.size() - 1);
  }

  private static String flags(List<List<String>> rows, String scheme, String sector) {
    return rows.stream()
        .filter(row -> row.get(9).equals(scheme) && row.get(10).equals(sector))
        .map(NerveTest::last)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void givesOneProfileForEitherDirection() throws IOException {
    List<List<String>> one = Folders.rows(profile(NerveCase.SOUND_CIRCLE, "csv"));
    List<List<String>> other = Folders.rows(profile(NerveCase.BACKWARD_CIRCLE, "csv"));

    assertEquals(768, one.size());
    assertEquals("0.00000", one.get(0).get(0));
    double apart = 0;
    for (int i = 0; i < one.size(); i++) {
      apart += Math.abs(um(one.get(i)) - um(other.get(i)));
    }
    assertTrue(apart / one.size() < 4, "mean distance " + apart / one.size() + " um");
    for (String kind : List.of("svg", "png")) {
      assertTrue(Files.size(profile(NerveCase.SOUND_CIRCLE, kind)) > 1000);
    }
    String svg = Files.readString(profile(NerveCase.SOUND_CIRCLE, "svg"));
    assertTrue(svg.contains("Not a diagnosis"));
  }

  @Test
  void takesAVolumeOverTheDiscForOne() throws IOException {
    List<List<String>> rows = rows(NerveCase.ATROPHY_IN_VOLUME);
    NerveTruth truth = SCANS.get(NerveCase.ATROPHY_IN_VOLUME).truth().nerve().orElseThrow();

    assertFalse(kinds(NerveCase.ATROPHY_IN_VOLUME).contains("GANGLION_CELLS_ONLY"));
    assertTrue(
        rows.stream().noneMatch(row -> row.get(7).startsWith("ganglion")), "the cup is no fovea");
    if (rows.isEmpty()) {
      assertTrue(kinds(NerveCase.ATROPHY_IN_VOLUME).contains("OPENING_NOT_SEEN"));
    } else {
      double area =
          rows.stream()
              .filter(row -> row.get(7).equals("opening-area"))
              .mapToDouble(row -> Double.parseDouble(row.get(12)))
              .findFirst()
              .orElseThrow();
      assertEquals(truth.areaMm2(), area, 0.25 * truth.areaMm2());
    }
  }

  @Test
  void keepsTheRecordOfTheRun() throws IOException {
    JsonNode record = JSON.readTree(run.resolve("run.json").toFile());

    assertEquals("nerve", record.at("/command").asText(), record.toString());
    assertTrue(Folders.files(run).stream().noneMatch(file -> file.toString().endsWith(".part")));
  }

  @Test
  void saysThatAFolderHasNoNerve() throws IOException {
    Path empty = Files.createDirectories(folder.resolve("empty"));
    Path other = folder.resolve("other");
    NerveCase.TRUNCATED_CIRCLE.write(other.resolve("a"));
    NerveCase.UNKNOWN_LATERALITY.write(other.resolve("b"));

    Call nothing = Call.isopach("nerve", empty, "--out", folder.resolve("a"));
    Call refused = Call.isopach("nerve", other, "--out", folder.resolve("b"));

    assertEquals(4, nothing.code(), nothing.err());
    assertEquals(4, refused.code(), refused.err());
    assertTrue(refused.err().contains("no scan of the optic nerve could be measured"));
    assertTrue(refused.err().contains("neither Frame, Image nor series Laterality has a value"));
    assertEquals(0, Folders.rows(folder.resolve("b").resolve("nerve.csv")).size());
  }

  @Test
  void refusesATableThatIsNone() throws IOException {
    Path table = Files.writeString(folder.resolve("own.csv"), "measure,mean\nrnfl,x\n");
    Path out = folder.resolve("run");

    Call own = Call.isopach("nerve", folder, "--out", out, "--reference", table);
    Call both = Call.isopach("nerve", folder, "--out", out, "--reference", table, "--no-reference");
    Call wide = Call.isopach("nerve", folder, "--out", out, "--circle", 60);

    assertEquals(2, own.code());
    assertTrue(own.err().contains("has faults"), own.err());
    assertEquals(2, both.code());
    assertEquals(2, wide.code());
    assertFalse(Files.exists(out), "nothing was done");
  }

  private static List<List<String>> rows(NerveCase one) throws IOException {
    return Folders.rows(run.resolve("nerve.csv")).stream()
        .filter(row -> row.get(3).equals(uid(one)))
        .toList();
  }

  private static double value(List<List<String>> rows, String scheme, String sector) {
    return rows.stream()
        .filter(row -> row.get(9).equals(scheme) && row.get(10).equals(sector))
        .mapToDouble(row -> Double.parseDouble(row.get(12)))
        .findFirst()
        .orElseThrow();
  }

  private static double um(List<String> row) {
    return Double.parseDouble(row.get(1));
  }

  private static String uid(NerveCase one) {
    return SCANS.get(one).scan().identity().sopUid();
  }

  private static Path profile(NerveCase one, String kind) {
    return run.resolve("profile").resolve(uid(one) + "." + kind);
  }

  /** Returns the kinds of findings about a case in the record of the run. */
  private static List<String> kinds(NerveCase one) throws IOException {
    JsonNode findings = JSON.readTree(run.resolve("run.json").toFile()).at("/findings");
    return StreamSupport.stream(findings.spliterator(), false)
        .filter(finding -> finding.at("/subject").asText().contains(one.folderName()))
        .map(finding -> finding.at("/kind").asText())
        .collect(Collectors.toList());
  }
}
