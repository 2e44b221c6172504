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
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Repeats by the command line, on small invented scans of two patients. */
class RepeatabilityTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir static Path shared;
  @TempDir Path folder;

  private static Path scans;
  private static Path run;
  private static Call call;

  /** Three eyes with two repeats, one of them with three, and a copy that must not count. */
  @BeforeAll
  static void measure() throws IOException {
    scans = shared.resolve("scans");
    Files.createDirectories(scans);
    RepeatedScans writer = new RepeatedScans(scans);
    for (int repeat = 0; repeat < 2; repeat++) {
      writer.write("a-right-" + repeat, "TSEU-1", Laterality.RIGHT, repeat);
      writer.write("a-left-" + repeat, "TSEU-1", Laterality.LEFT, repeat);
      writer.write("b-right-" + repeat, "TSEU-2", Laterality.RIGHT, repeat);
    }
    writer.write("b-right-2", "TSEU-2", Laterality.RIGHT, 2);
    writer.write("b-right-1-copy", "TSEU-2", Laterality.RIGHT, 1);
    run = shared.resolve("run");
    call = repeatability(scans, run, "--plot-sector", "centre,outer-nasal");
  }

  @Test
  void reckonsWithRepeatsAloneAndNamesWhatItLeavesOut() throws IOException {
    assertEquals(0, call.code(), call.err());
    assertTrue(call.err().contains("copy: its frames are those of another"), call.err());
    assertTrue(call.out().contains(Cautions.LINE), call.out());

    JsonNode root = JSON.readTree(run.resolve("repeatability.json").toFile());
    assertEquals(3, root.get("sessions").size());
    List<List<String>> rows = Folders.rows(run.resolve("repeatability.csv"));
    assertEquals(10, rows.size());
    for (int i = 0; i < rows.size(); i++) {
      JsonNode sector = root.get("sectors").get(i);
      assertEquals("ILM-BM", rows.get(i).get(0));
      assertTrue(sector.get("measurable").asBoolean(), sector.toString());
      assertFalse(rows.get(i).get(30).isEmpty(), "alignment");
      assertTrue(sector.get("icc").asDouble() <= 1, sector.toString());
      checkByHand(sector);
      assertEquals(7, sector.get("n_scans").asInt(), "the copy is no repeat");
      double repeatability = sector.get("repeatability_um").asDouble();
      assertTrue(repeatability < 15, "eyes that hold still repeat within some µm: " + sector);
      assertEquals(sector.get("n_pairs").isNull(), !sector.get("reason").asText().isEmpty());
    }
    assertEquals(8, Folders.rows(run.resolve("sectors.csv")).size() / 10, "all are measured");
  }

  /** The plain formulae, from the values that the file gives. */
  private static void checkByHand(JsonNode sector) {
    double squares = 0;
    double differences = 0;
    int df = 0;
    for (JsonNode session : sector.get("values")) {
      List<Double> um =
          session.get("repeats").findValues("um").stream().map(JsonNode::asDouble).toList();
      double mean = um.stream().collect(Collectors.averagingDouble(value -> value));
      squares += um.stream().mapToDouble(value -> (value - mean) * (value - mean)).sum();
      differences += um.get(1) - um.get(0);
      df += um.size() - 1;
    }
    int sessions = sector.get("values").size();
    assertEquals(sessions, sector.get("n_sessions").asInt());
    assertEquals(df, sector.get("n_df").asInt());
    assertEquals(df + sessions, sector.get("n_scans").asInt());
    double sd = Math.sqrt(squares / df);
    assertTrue(sd > 0, sector.toString());
    assertEquals(sd, sector.get("within_sd_um").asDouble(), 2e-4);
    assertEquals(1.96 * Math.sqrt(2) * sd, sector.get("repeatability_um").asDouble(), 4e-4);
    if (sessions >= 3) {
      assertEquals(differences / sessions, sector.get("bias_um").asDouble(), 2e-4);
    }
  }

  @Test
  void drawsWhatIsAskedFor() throws IOException {
    assertEquals(
        List.of(
            "ILM-BM_centre.png",
            "ILM-BM_centre.svg",
            "ILM-BM_outer-nasal.png",
            "ILM-BM_outer-nasal.svg"),
        Folders.files(run.resolve("repeatability")).stream()
            .map(file -> file.getFileName().toString())
            .sorted()
            .toList());
    String svg = Files.readString(run.resolve("repeatability/ILM-BM_centre.svg"));
    assertTrue(svg.contains(Cautions.LINE) && svg.contains("upper limit"), "words");
  }

  @Test
  void refusesNumbersThatTooFewEyesCannotGive() throws IOException {
    Path some = folder.resolve("some");
    Files.createDirectories(some);
    for (String name : List.of("a-right-0", "a-right-1")) {
      Files.copy(scans.resolve(name), some.resolve(name));
    }
    Path out = folder.resolve("run");
    Call refused = repeatability(some, out, "--threads", 1);

    assertEquals(3, refused.code(), refused.err());
    assertTrue(refused.err().contains("needs repeats of at least 2 eyes, found 1"), refused.err());
    JsonNode centre =
        JSON.readTree(out.resolve("repeatability.json").toFile()).get("sectors").get(0);
    assertFalse(centre.get("measurable").asBoolean());
    assertTrue(centre.get("within_sd_um").isNull());
    assertEquals(
        "within-subject SD too-few: needs repeats of at least 2 eyes, found 1; limits of agreement"
            + " too-few: needs at least 3 pairs, found 1; ICC too-few: needs repeats of at least 2"
            + " eyes, found 1",
        centre.get("reason").asText());
    assertFalse(Files.exists(out.resolve("repeatability")));
  }

  @Test
  void refusesWrongCalls() {
    assertTrue(wrong("--within-days", -1).contains("must not be negative"));
    assertTrue(wrong("--plot-sector", "middle").contains("'middle' is not a sector"));
    assertTrue(wrong("--plot-layer", "GCC").contains("is not measured"));
  }

  private String wrong(Object... options) {
    Call refused = repeatability(scans, folder.resolve("none"), options);
    assertEquals(2, refused.code(), refused.err());
    return refused.err();
  }

  private static Call repeatability(Path in, Path out, Object... options) {
    return Call.isopach(
        Stream.concat(
                Stream.of(
                    "repeatability",
                    in,
                    "--out",
                    out,
                    "--layer",
                    "ILM-BM",
                    "--skip",
                    "boundaries,objects"),
                Stream.of(options))
            .toArray());
  }
}
