package org.isopach.report.table;

import static org.isopach.report.SampleMaps.map;
import static org.isopach.report.SampleMaps.scan;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.isopach.analysis.change.ChangeRegions;
import org.isopach.analysis.change.VisitChange;
import org.isopach.analysis.change.VisitComparer;
import org.isopach.analysis.change.VisitMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.report.SampleMaps;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ChangeFileTest {
  @TempDir Path folder;

  @Test
  void writesChangeInMicrometresAndPercentOfTheBaseline() throws IOException {
    AxialScale axial = AxialScale.ofMicrometresPerPixel(3.9);
    VisitMap before = new VisitMap(map(Laterality.LEFT, (x, y) -> 320), axial);
    VisitMap after =
        new VisitMap(
            map(
                scan("2.25.2", SampleMaps.FIRST_VISIT.plusDays(28)),
                Laterality.LEFT,
                Layer.ILM_BM,
                (x, y) -> y > 2 ? Double.NaN : 328),
            axial);
    VisitChange.Compared compared =
        (VisitChange.Compared)
            new VisitComparer(new SectorTabulator())
                .compare(before, after, EtdrsGrids.ETDRS_1_3_6, 0.9);
    Path file = folder.resolve("change.csv");

    ChangeFile.write(
        file,
        List.of(
            new AlignedChange(
                compared.table(), "foveal-pit", 0.031, new ChangeRegions.NotSought("not asked"))));

    List<String> lines = Files.readAllLines(file);
    assertEquals(
        "patient_id,study_uid,series_uid,sop_uid,acquired,laterality,layer,grid,sector,baseline_um,"
            + "followup_um,change_um,change_percent,n_days,area_mm2,covered_fraction,alignment,"
            + "measurable,reason,baseline_study_uid,baseline_series_uid,baseline_sop_uid,"
            + "baseline_acquired,change_sd_um,change_low_um,change_high_um,p,p_adjusted,beyond_noise,"
            + "noise_source,noise_df,noise_reference,place_sd_mm,words",
        lines.get(0));
    assertEquals(
        "SP-0001,1.2.2.25.2,1.3,2.25.2,2026-04-01T09:12:00,L,ILM-BM,etdrs-1-3-6,centre,320.000,"
            + "328.000,8.000,2.500,28,0.785398,1.0000,foveal-pit,true,,1.2.2.25.1,1.3,2.25.1,"
            + "2026-03-04T09:12:00,,,,,,,,,,0.0310,changed by +8.0 µm; whether that is more than noise is not"
            + " known: the noise of repeated scans was not looked for",
        lines.get(1));
    List<String> inferior = List.of(lines.get(8).split(",", -1));
    assertEquals(List.of("outer-inferior", "", "", "", "", "28"), inferior.subList(8, 14));
  }
}
