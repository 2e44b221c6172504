package org.isopach.report.table;

import static org.isopach.report.SampleMaps.map;
import static org.isopach.report.SampleMaps.scan;
import static org.isopach.report.SampleMaps.table;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.report.SampleMaps;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SectorFileTest {
  private static final LocalDateTime TIME = SampleMaps.FIRST_VISIT;

  @TempDir Path folder;

  @Test
  void writesOneRowForASectorAndTheTotalLast() throws IOException {
    Path file = folder.resolve("sectors.csv");

    SectorFile.write(file, List.of(table(map(Laterality.RIGHT, (x, y) -> 300))));

    List<String> lines = Files.readAllLines(file);
    assertEquals(
        "patient_id,study_uid,series_uid,sop_uid,acquired,laterality,layer,grid,sector,mean_um,"
            + "sd_um,min_um,max_um,area_mm2,covered_fraction,volume_mm3,centre_x_mm,centre_y_mm,"
            + "centre_source,measurable,reason,centre_point_um",
        lines.get(0));
    assertEquals(11, lines.size());
    // Area of the central disc: pi/4 mm2; 300 um over it are 0.2356 mm3 (closed form).
    assertEquals(
        "SP-0001,1.2.2.25.1,1.3,2.25.1,2026-03-04T09:12:00,R,ILM-BM,etdrs-1-3-6,centre,300.000,"
            + "0.000,300.000,300.000,0.785398,1.0000,0.235619,4.2500,4.1250,foveal-pit,true,,"
            + "300.000",
        lines.get(1));
    assertEquals("total", lines.get(10).split(",", -1)[8]);
  }

  @Test
  void neverWritesANumberForARefusedSector() {
    List<List<String>> rows =
        SectorFile.rows(List.of(table(map(Laterality.RIGHT, (x, y) -> y > 1 ? Double.NaN : 300))));

    int mean = SectorFile.columns().indexOf("mean_um");
    int measurable = SectorFile.columns().indexOf("measurable");
    int reason = SectorFile.columns().indexOf("reason");
    int volume = SectorFile.columns().indexOf("volume_mm3");
    int refused = 0;
    for (List<String> row : rows) {
      assertFalse(row.contains("NaN"), row.toString());
      boolean measured = row.get(measurable).equals("true");
      assertEquals(measured, row.get(reason).isEmpty(), row.toString());
      assertEquals(measured, !row.get(mean).isEmpty(), row.toString());
      assertEquals(measured, !row.get(volume).isEmpty(), row.toString());
      refused += measured ? 0 : 1;
    }
    assertEquals(5, refused, "four sectors reach below 1 mm, and the total");
  }

  @Test
  void ordersByPatientEyeTimeObjectLayerWhateverTheOrderGiven() {
    SectorTable late = sample("2.25.1", TIME.plusDays(1), Laterality.RIGHT, Layer.ILM_BM);
    SectorTable left = sample("2.25.2", TIME, Laterality.LEFT, Layer.ILM_BM);
    SectorTable thin = sample("2.25.3", TIME, Laterality.RIGHT, Layer.ILM_EZ);
    SectorTable first = sample("2.25.3", TIME, Laterality.RIGHT, Layer.ILM_BM);

    List<List<String>> rows = SectorFile.rows(List.of(late, left, thin, first));

    assertEquals(rows, SectorFile.rows(List.of(thin, first, left, late)));
    assertEquals(
        List.of("2.25.3 ILM-BM", "2.25.3 ILM-EZ", "2.25.1 ILM-BM", "2.25.2 ILM-BM"),
        rows.stream()
            .filter(row -> row.get(8).equals("centre"))
            .map(row -> row.get(3) + " " + row.get(6))
            .toList());
  }

  private static SectorTable sample(
      String sop, LocalDateTime time, Laterality laterality, Layer layer) {
    return table(map(scan(sop, time), laterality, layer, (x, y) -> 300));
  }
}
