package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Thickness map objects among the inputs, with and without the scans they were made from. */
class ImportedMapsTest {
  @TempDir static Path shared;
  @TempDir Path out;

  private static final String LAYERS = "ILM-BM,ILM-RPE,ILM-EZ";

  private static Path study;
  private static Path first;

  @BeforeAll
  static void measureOnce() throws IOException {
    study = shared.resolve("study");
    new PhantomStudy(ScanPlan.raster(new ScanSize(19, 96, 496), 3.87, 6.4, 6.4, 0)).write(study);
    first = shared.resolve("first");
    Call call =
        Call.isopach(
            "measure", study, "--out", first, "--layer", LAYERS, "--skip", "pictures,reports");
    assertEquals(0, call.code(), call.err());
  }

  @Test
  void aScanAndItsMapsCountOnce() throws IOException {
    Call call =
        Call.isopach(
            "measure",
            shared,
            "--out",
            out,
            "--layer",
            LAYERS,
            "--skip",
            "pictures,objects,reports");

    assertEquals(0, call.code(), call.err());
    assertEquals(
        Files.readAllLines(first.resolve("sectors.csv")),
        Files.readAllLines(out.resolve("sectors.csv")));
    String record = Files.readString(out.resolve("run.json"));
    assertTrue(record.contains("the object is a height map segmentation"), record);
    assertTrue(record.contains("the object is a macular grid report"), record);
    assertTrue(!record.contains("NOT_OPHTHALMIC"), record);
    assertTrue(!call.err().contains("height map"), call.err());
    assertEquals(12, call.err().split("the scan was measured afresh", -1).length - 1, call.err());
  }

  @Test
  void mapsAloneGiveTheTablesOfTheirScansButNoChange() throws IOException {
    Call call =
        Call.isopach(
            "compare", first.resolve("objects"), "--out", out, "--skip", "pictures,reports");

    assertEquals(3, call.code(), call.err());
    assertTrue(call.err().contains("the map was tabulated, not compared"), call.err());
    List<List<String>> scans = Folders.rows(first.resolve("sectors.csv"));
    List<List<String>> maps = Folders.rows(out.resolve("sectors.csv"));
    assertEquals(120, maps.size());
    for (int i = 0; i < maps.size(); i++) {
      // The series is that of the map, the rest names the scan it was made from.
      assertEquals(scans.get(i).subList(0, 2), maps.get(i).subList(0, 2));
      assertEquals(scans.get(i).subList(3, 9), maps.get(i).subList(3, 9));
      // A stored value is at most 0.03125 um off.
      assertEquals(
          Double.parseDouble(scans.get(i).get(9)), Double.parseDouble(maps.get(i).get(9)), 0.032);
    }
    assertEquals(List.of(), Folders.rows(out.resolve("change.csv")));
  }
}
