package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.isopach.fixtures.dicom.NerveStudy;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DemoTest {
  @TempDir Path folder;

  @Test
  void writesAStudyMeasuresItAndSaysWhereThePicturesAre() throws IOException {
    Call call = Call.isopach("demo", "--only", "macula", "--out", folder);

    assertEquals(0, call.code(), call.err());
    assertFalse(Files.exists(folder.resolve("nerve-study")));
    assertEquals(8, Folders.files(folder.resolve("study")).size());
    Path results = folder.resolve("results");
    assertEquals(12, Folders.files(results.resolve("maps")).size());
    assertEquals(6, Folders.files(results.resolve("change")).size());
    assertEquals(120, rows(results.resolve("sectors.csv")));
    assertEquals(60, rows(results.resolve("change.csv")));
    assertEquals(6, Folders.files(results.resolve("overlays")).size());
    assertTrue(Folders.rows(results.resolve("fluid.csv")).stream().anyMatch(DemoTest::wet));
    String patient = "Patient " + PhantomStudy.PATIENT_ID + ", right eye";
    for (String words : new String[] {patient, results.resolve("maps").toString(), Cautions.LINE}) {
      assertTrue(call.out().contains(words), call.out());
    }
  }

  /** On the circles as they were scanned the right eye truly loses 12.9 µm below, the left 0.6. */
  @Test
  void writesAStudyOfTheNerveInWhichTheRightEyeThins() throws IOException {
    Call call = Call.isopach("demo", "--only", "nerve", "--out", folder);

    assertEquals(0, call.code(), call.err());
    assertFalse(Files.exists(folder.resolve("study")));
    assertTrue(Files.readString(folder.resolve("nerve-truth.json")).contains("\"nerveHead\""));
    Path results = folder.resolve("nerve-results");
    List<List<String>> rows = Folders.rows(results.resolve("nerve.csv"));
    assertEquals(14, rows.stream().filter(row -> circle(row, "global")).count());
    assertEquals(
        12.9, fibresUm(rows, "R", "2024", "inferior") - fibresUm(rows, "R", "2026", "inferior"), 6);
    assertEquals(
        0.6, fibresUm(rows, "L", "2024", "global") - fibresUm(rows, "L", "2026", "global"), 4);
    String patient = "Patient " + NerveStudy.PATIENT_ID + ", right eye";
    for (String words : new String[] {patient, results.toString(), Cautions.LINE}) {
      assertTrue(call.out().contains(words), call.out());
    }
    assertTrue(call.err().contains("isopach series"), call.err());
  }

  private static boolean circle(List<String> row, String sector) {
    return row.get(6).equals("circle") && row.get(7).equals("rnfl") && row.get(10).equals(sector);
  }

  /** The value in µm of the first circle of an eye in a year. */
  private static double fibresUm(List<List<String>> rows, String eye, String year, String sector) {
    return rows.stream()
        .filter(row -> circle(row, sector) && row.get(5).equals(eye))
        .filter(row -> row.get(4).startsWith(year))
        .map(row -> Double.parseDouble(row.get(12)))
        .findFirst()
        .orElseThrow();
  }

  /** The right eye's fluid under the retina at the first visit is found. */
  private static boolean wet(List<String> row) {
    return row.contains("R") && row.contains("subretinal-fluid") && row.contains("true");
  }

  private static int rows(Path table) throws IOException {
    return Folders.ofWholeRetina(Folders.rows(table)).size();
  }
}
