package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.derive.SurfaceCode;
import org.isopach.dicom.read.HeightMap;
import org.isopach.dicom.read.HeightMapReader;
import org.isopach.dicom.read.MacularGridReport;
import org.isopach.dicom.read.MacularGridReportReader;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The objects of a whole run say what its tables say. */
class DerivedObjectsTest {
  @TempDir static Path shared;

  private static Path run;

  @BeforeAll
  static void measureOnce() throws IOException {
    Path study = shared.resolve("study");
    new PhantomStudy(ScanPlan.raster(new ScanSize(19, 96, 496), 3.87, 6.4, 6.4, 0)).write(study);
    run = shared.resolve("run");
    Call call = Call.isopach("measure", study, "--out", run, "--skip", "pictures");
    assertEquals(0, call.code(), call.err());
  }

  private static Map<String, Path> objects(String ending) throws IOException {
    Map<String, Path> objects = new TreeMap<>();
    for (Path file : Folders.files(run.resolve("objects"))) {
      String name = file.getFileName().toString();
      if (name.endsWith(ending)) {
        objects.put(name.substring(0, name.length() - ending.length()), file);
      }
    }
    return objects;
  }

  @Test
  void reportsHaveTheNumbersOfTheTableOfSectors() throws Exception {
    Map<String, List<List<String>>> rows =
        Folders.rows(run.resolve("sectors.csv")).stream()
            .filter(row -> row.get(6).equals("ILM-RPE"))
            .collect(Collectors.groupingBy(row -> row.get(3)));
    Map<String, Path> reports = objects("_grid-report.dcm");
    assertEquals(rows.keySet(), reports.keySet());
    assertEquals(4, reports.size());
    for (Map.Entry<String, Path> report : reports.entrySet()) {
      MacularGridReport eye = MacularGridReportReader.read(report.getValue()).get(0);
      for (List<String> row : rows.get(report.getKey())) {
        assertEquals(row.get(5), eye.laterality().code());
        String number = row.get(8).equals("total") ? row.get(15) : row.get(9);
        assertEquals(Double.parseDouble(number), eye.values().get(row.get(8)), row.toString());
        assertEquals(Double.parseDouble(row.get(21)), eye.values().get("centre-point"));
      }
    }
  }

  /** The table has three decimals of a pixel; the object counts from half a pixel further up. */
  @Test
  void heightMapsHaveTheDepthsOfTheTableOfBoundaries() throws Exception {
    Map.Entry<String, Path> object = objects("_height-maps.dcm").entrySet().iterator().next();
    Map<String, HeightMap> surfaces = new TreeMap<>();
    for (HeightMap map : HeightMapReader.read(object.getValue())) {
      surfaces.put(SurfaceCode.boundary(map.surface()).orElseThrow().code(), map);
    }
    Path table = run.resolve("boundaries").resolve(object.getKey() + ".csv");
    List<List<String>> rows = Folders.rows(table);
    assertEquals(19 * 96 * surfaces.size(), rows.size());
    for (List<String> row : rows) {
      float depth =
          surfaces
              .get(row.get(2))
              .rowsFromTop(Integer.parseInt(row.get(0)), Integer.parseInt(row.get(1)));
      if (row.get(3).isEmpty()) {
        assertTrue(Float.isNaN(depth), row.toString());
      } else {
        assertEquals(Double.parseDouble(row.get(3)) + 0.5, depth, 0.00055, row.toString());
      }
    }
  }

  @Test
  void everyObjectPassesOurChecker() throws Exception {
    List<Path> all = Folders.files(run.resolve("objects"));
    assertEquals(4, objects("_height-maps.dcm").size());
    for (Path file : all) {
      assertEquals(List.of(), FileChecker.standard().check(file).violations(), file.toString());
    }
  }
}
