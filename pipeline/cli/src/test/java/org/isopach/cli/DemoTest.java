package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DemoTest {
  @TempDir Path folder;

  @Test
  void writesAStudyMeasuresItAndSaysWhereThePicturesAre() throws IOException {
    Call call = Call.isopach("demo", "--out", folder);

    assertEquals(0, call.code(), call.err());
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

  /** The right eye's fluid under the retina at the first visit is found. */
  private static boolean wet(List<String> row) {
    return row.contains("R") && row.contains("subretinal-fluid") && row.contains("true");
  }

  private static int rows(Path table) throws IOException {
    return Folders.ofWholeRetina(Folders.rows(table)).size();
  }
}
