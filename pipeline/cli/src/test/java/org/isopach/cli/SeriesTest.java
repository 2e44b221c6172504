package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.isopach.analysis.eye.Laterality;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The commands about series and both eyes, on a small invented study of one patient. */
class SeriesTest {
  @TempDir static Path shared;
  @TempDir Path folder;

  private static Path study;

  @BeforeAll
  static void writeStudy() throws IOException {
    study = shared.resolve("study");
    VisitFolder visits = new VisitFolder(study);
    // Names against the order of time.
    visits.write("a", Laterality.RIGHT, 56, 20, 0);
    visits.write("b", Laterality.RIGHT, 28, 70, 40);
    visits.write("c", Laterality.RIGHT, 0, 120, 80);
    visits.write("d", Laterality.LEFT, 56, 0, 0);
  }

  @Test
  void followsAnEyeThroughItsVisitsAndTreatments() throws IOException {
    Path run = folder.resolve("run");
    Path treatments =
        Files.writeString(
            folder.resolve("t.csv"),
            "patient_id,eye,date,what\n"
                + VisitFolder.PATIENT
                + ",R,2026-01-05,Dose 1\n"
                + VisitFolder.PATIENT
                + ",X,2026-01-05,Dose 1\n");

    Call call =
        Call.isopach(
            "series",
            study,
            "--out",
            run,
            "--layer",
            "ILM-BM",
            "--skip",
            "objects,boundaries,reports",
            "--treatments",
            treatments,
            "--ageing");

    assertEquals(3, call.code(), call.err());
    assertTrue(call.err().contains("the eye must be R, L or both, was 'X'"), call.err());
    assertTrue(call.out().contains(Cautions.LINE));
    List<List<String>> centre =
        Folders.rows(run.resolve("series.csv")).stream()
            .filter(row -> row.get(2).equals("R") && row.get(5).equals("centre"))
            .toList();
    assertEquals(List.of("0", "28", "56"), centre.stream().map(row -> row.get(11)).toList());
    assertEquals("0.000", centre.get(0).get(13));
    assertEquals("first", centre.get(0).get(15));
    double change = Double.parseDouble(centre.get(2).get(13));
    // The swelling of the phantom shrinks by 100 um 1 mm off; less of it reaches the centre.
    assertTrue(change < -15 && change > -100, centre.toString());
    JsonNode json = new ObjectMapper().readTree(run.resolve("series.json").toFile());
    JsonNode right = json.at("/eyes/0");
    assertEquals("Dose 1", right.at("/treatments/0/what").asText());
    JsonNode first = right.at("/series/0");
    assertEquals(change, first.at("/visits/2/change_um").asDouble());
    assertEquals(change, first.at("/response/1/change_um").asDouble());
    assertTrue(first.at("/trend/slope_um_per_year").asDouble() < 0);
    assertTrue(first.at("/trend/age_reason").asText().contains("no single slope is safe"));
    assertTrue(json.at("/eyes/1/series/0/trend/reason").asText().contains("there are 1"));
    assertEquals(4, Folders.files(run.resolve("series")).size(), "a PNG and an SVG for each eye");
  }

  @Test
  void laysTheEyesOfOneDayOnOneAnother() throws IOException {
    Path run = folder.resolve("run");

    Call call =
        Call.isopach(
            "asymmetry",
            study.resolve("a"),
            study.resolve("c"),
            study.resolve("d"),
            "--out",
            run,
            "--layer",
            "ILM-BM",
            "--skip",
            "objects,boundaries,reports");

    assertEquals(0, call.code(), call.err());
    List<List<String>> rows = Folders.rows(run.resolve("asymmetry.csv"));
    assertEquals(10, rows.size(), "one pair, one layer");
    assertEquals("none published here", rows.get(0).get(12));
    assertEquals(1, Folders.files(run.resolve("asymmetry")).size());
    assertTrue(call.err().contains("no scan of that eye and visit goes with it"), call.err());
  }

  @Test
  void refusesAWrongCall() throws IOException {
    Path run = folder.resolve("run");
    Path bad = Files.writeString(folder.resolve("bad.csv"), "patient;eye\n");

    Call table = Call.isopach("series", study, "--out", run, "--treatments", bad);
    Call days = Call.isopach("series", study, "--out", run, "--loading-days", 0);

    assertEquals(2, table.code());
    assertTrue(table.err().contains("'patient_id' is missing"), table.err());
    assertEquals(2, days.code());
  }
}
