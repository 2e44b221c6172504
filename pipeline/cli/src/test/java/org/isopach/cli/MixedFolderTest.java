package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.finding.FindingKind.Gravity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One folder with everything that can be wrong with an object, and one good scan among it. */
class MixedFolderTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final List<String> MEASURED_ALL = List.of("good");
  private static final List<String> MEASURED_IN_PART =
      List.of("contradicting", "line", "no-laterality");

  @TempDir static Path shared;
  @TempDir Path out;

  private static Path folder;
  private static final Map<String, FindingKind> WRONG = new TreeMap<>();

  @BeforeAll
  static void write() throws IOException {
    folder = Files.createDirectories(shared.resolve("in/deeper")).getParent();
    StoredScan scan = StoredScan.of(ScanPlan.raster(new ScanSize(19, 96, 400), 3.87, 6.4, 6.4, 0));
    StoredScan.writeLocalizer(folder.resolve("deeper/fundus"), true);
    scan.copy().write(folder, "good");
    filesThatAreBroken(scan);
    attributesThatAreWrong(scan);
    wrong("line", FindingKind.SINGLE_LINE, scan.keeping(1));
    wrong("blank", FindingKind.CONSTANT_IMAGE, scan.blank());
    wrong("upside-down", FindingKind.UPSIDE_DOWN, scan.upsideDown());
    Files.createSymbolicLink(folder.resolve("deeper/loop"), folder);
    WRONG.put("deeper/loop", FindingKind.LINK_LOOP);
    Files.createSymbolicLink(folder.resolve("nowhere"), folder.resolve("gone"));
    WRONG.put("nowhere", FindingKind.UNREADABLE_FILE);
  }

  private static void filesThatAreBroken(StoredScan scan) throws IOException {
    byte[] good = Files.readAllBytes(folder.resolve("good"));
    Files.write(folder.resolve("cut"), Arrays.copyOf(good, good.length / 2));
    WRONG.put("cut", FindingKind.TRUNCATED);
    Files.createFile(folder.resolve("empty.dcm"));
    WRONG.put("empty.dcm", FindingKind.NOT_DICOM);
    Files.writeString(folder.resolve("text.dcm"), "Dear colleague,\n");
    WRONG.put("text.dcm", FindingKind.NOT_DICOM);
    scan.copy().write(folder.resolve("short"), "2.25.801", 40_000);
    WRONG.put("short", FindingKind.PIXEL_DATA_SHORT);
    scan.copy().write(folder.resolve("twin-1"), "2.25.802", 0);
    scan.lastFrameFirst().write(folder.resolve("twin-2"), "2.25.802", 0);
    WRONG.put("twin-1", FindingKind.DUPLICATE_DIFFERENT);
    WRONG.put("twin-2", FindingKind.DUPLICATE_DIFFERENT);
  }

  private static void attributesThatAreWrong(StoredScan scan) throws IOException {
    wrong("no-spacing", FindingKind.NO_AXIAL_SPACING, scan.copy().with(b -> spacing(b)));
    for (String bad : List.of("NaN", "0", "-0.004")) {
      FindingKind kind =
          bad.equals("NaN") ? FindingKind.MALFORMED_ATTRIBUTE : FindingKind.NO_AXIAL_SPACING;
      wrong("spacing" + bad, kind, scan.copy().with(b -> spacing(b, bad, "0.067")));
    }
    wrong(
        "no-laterality",
        FindingKind.NO_LATERALITY,
        scan.copy().with(b -> b.text(Tags.IMAGE_LATERALITY, Vr.CS)));
    wrong(
        "contradicting",
        FindingKind.LATERALITY_CONTRADICTION,
        scan.copy().with(b -> b.text(Tags.LATERALITY, Vr.CS, "L")));
    wrong(
        "no-frames",
        FindingKind.NO_FRAMES,
        scan.copy().with(b -> b.text(Tags.NUMBER_OF_FRAMES, Vr.IS, "0")));
  }

  private static void spacing(Dataset.Builder object, String... values) {
    object.items(
        Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE,
        Dataset.builder().items(Tags.PIXEL_MEASURES_SEQUENCE, StoredScan.spacing(values)).build());
  }

  private static void wrong(String name, FindingKind kind, StoredScan scan) throws IOException {
    scan.write(folder, name);
    WRONG.put(name, kind);
  }

  @Test
  void measureNamesEachAndMeasuresTheRest() throws IOException {
    Map<String, String> before = Folders.digests(folder);

    Call call =
        Call.isopach("measure", folder, "--out", out, "-v", "--skip", "pictures,objects,reports");

    assertEquals(3, call.code(), call.err());
    assertEquals(before, Folders.digests(folder));
    JsonNode record = JSON.readTree(out.resolve("run.json").toFile());
    eachIsNamed(record.get("findings"), call.err());
    assertEquals(MEASURED_ALL, scansInTable(record));
    Set<String> outcomes = new TreeSet<>(MEASURED_ALL);
    outcomes.addAll(MEASURED_IN_PART);
    assertEquals(outcomes, measured(record));
    assertEquals(outcomes.size(), Folders.files(out.resolve("boundaries")).size());
  }

  @Test
  void compareDoesTheSame() throws IOException {
    Call call =
        Call.isopach("compare", folder, "--out", out, "-v", "--skip", "pictures,objects,reports");

    assertEquals(3, call.code(), call.err());
    JsonNode record = JSON.readTree(out.resolve("run.json").toFile());
    eachIsNamed(record.get("findings"), call.err());
    assertEquals(MEASURED_ALL, scansInTable(record));
    assertTrue(Files.exists(out.resolve("change.csv")));
  }

  @Test
  void inspectSaysSoBeforehand() throws IOException {
    Call call = Call.isopach("inspect", folder, "--json");

    assertEquals(3, call.code(), call.out());
    // Grey values are not looked at.
    Set<String> later = Set.of("blank", "upside-down");
    JsonNode findings = JSON.readTree(call.out()).get("findings");
    for (String name : WRONG.keySet()) {
      if (!later.contains(name) && !name.equals("line")) {
        assertFalse(about(findings, name).isEmpty(), name + " in " + findings);
      }
    }
    assertTrue(Call.isopach("inspect", folder).out().contains("but: "), "obstacles are told");
  }

  private static void eachIsNamed(JsonNode findings, String err) {
    WRONG.forEach(
        (name, kind) -> {
          List<JsonNode> entries =
              about(findings, name).stream()
                  .filter(one -> !one.get("gravity").asText().equals(word(Gravity.NOTE)))
                  .toList();
          assertEquals(1, entries.size(), name + ": " + about(findings, name));
          JsonNode entry = entries.get(0);
          assertEquals(
              kind.name(), entry.get("kind").asText().replace('-', '_').toUpperCase(Locale.ROOT));
          assertEquals(kind.advice(), entry.get("advice").asText());
          String words = folder.resolve(name) + ": " + entry.get("detail").asText();
          assertTrue(err.contains(words), words + " in " + err);
          assertTrue(err.contains(kind.advice()), kind.advice());
        });
  }

  private static String word(Gravity gravity) {
    return gravity.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static List<JsonNode> about(JsonNode findings, String name) {
    List<JsonNode> found = new ArrayList<>();
    for (JsonNode finding : findings) {
      if (finding.get("subject").asText().equals(folder.resolve(name).toString())) {
        found.add(finding);
      }
    }
    return found;
  }

  private List<String> scansInTable(JsonNode record) throws IOException {
    Map<String, String> names = new TreeMap<>();
    for (JsonNode input : record.get("inputs")) {
      names.put(
          input.get("sop_uid").asText(),
          Path.of(input.get("location").asText()).getFileName().toString());
    }
    return Folders.rows(out.resolve("sectors.csv")).stream()
        .map(row -> names.get(row.get(3)))
        .distinct()
        .toList();
  }

  private static Set<String> measured(JsonNode record) {
    Set<String> names = new TreeSet<>();
    for (JsonNode input : record.get("inputs")) {
      if (input.get("outcome").asText().equals("measured")) {
        names.add(Path.of(input.get("location").asText()).getFileName().toString());
      }
    }
    return names;
  }
}
