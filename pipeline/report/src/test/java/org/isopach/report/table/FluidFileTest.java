package org.isopach.report.table;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.region.MeasuredRegion;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.region.UnmeasuredRegion;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.file.FileDigest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FluidFileTest {
  @TempDir Path folder;

  @Test
  void writesSectorsTotalAndScanOfEveryKindInOrder() throws IOException {
    Path file = folder.resolve("fluid.csv");

    String digest = FluidFile.write(file, List.of(line(), volume()));

    assertEquals(
        """
        patient_id,study_uid,series_uid,sop_uid,acquired,laterality,kind,grid,sector,present,\
        volume_nl,region_area_mm2,max_height_um,regions,largest_section_mm2,largest_section_frame,\
        area_mm2,covered_fraction,centre_x_mm,centre_y_mm,centre_source,measurable,reason
        TSE-0001,2.25.1,2.25.2,2.25.3,2026-03-02T23:50:00,R,intraretinal-fluid,etdrs-1-3-6,centre,\
        true,12.3457,0.250000,77.400,,,,0.785398,1.0000,0.1000,-0.2000,foveal-pit,true,
        TSE-0001,2.25.1,2.25.2,2.25.3,2026-03-02T23:50:00,R,intraretinal-fluid,etdrs-1-3-6,\
        outer-nasal,,,,,,,,5.301438,0.4000,0.1000,-0.2000,foveal-pit,false,\
        "low-coverage: 40.0 % of it was looked at, 90.0 % are needed"
        TSE-0001,2.25.1,2.25.2,2.25.3,2026-03-02T23:50:00,R,intraretinal-fluid,etdrs-1-3-6,scan,\
        true,12.3457,0.250000,77.400,2,0.031250,24,36.000000,0.9500,0.1000,-0.2000,foveal-pit,true,
        TSE-0001,2.25.1,2.25.2,2.25.4,,,rpe-elevation,,scan,false,,,0.000,0,,,,1.0000,,,,false,\
        "spans-no-area: the frames draw the figure 'single line', which has no volume"
        """,
        Files.readString(file));
    assertEquals(FileDigest.sha256(file), digest);
  }

  private static RegionTable volume() {
    return new RegionTable(
        RegionKind.INTRARETINAL_FLUID,
        identity("2.25.3", Optional.of(LocalDateTime.parse("2026-03-02T23:50:00"))),
        Optional.of(Laterality.RIGHT),
        Optional.of("etdrs-1-3-6"),
        Optional.of(new Landmark(new FundusPoint(0.1, -0.2), Landmark.Source.FOVEAL_PIT)),
        List.of(
            new MeasuredRegion("centre", 0.7853981633974483, 1, 12.345678, 0.25, 77.4),
            new UnmeasuredRegion(
                "outer-nasal",
                5.301437602932776,
                0.4,
                Optional.empty(),
                OptionalDouble.empty(),
                NotMeasurable.Reason.LOW_COVERAGE,
                "40.0 % of it was looked at, 90.0 % are needed")),
        new MeasuredRegion("scan", 36, 0.95, 12.345678, 0.25, 77.4),
        Optional.of(new RegionTable.Found(2, Optional.of(new RegionTable.Section(24, 0.03125)))));
  }

  private static RegionTable line() {
    return new RegionTable(
        RegionKind.RPE_ELEVATION,
        identity("2.25.4", Optional.empty()),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        List.of(),
        new UnmeasuredRegion(
            "scan",
            0,
            1,
            Optional.of(false),
            OptionalDouble.of(0),
            NotMeasurable.Reason.SPANS_NO_AREA,
            "the frames draw the figure 'single line', which has no volume"),
        Optional.of(new RegionTable.Found(0, Optional.empty())));
  }

  private static ScanIdentity identity(String sopUid, Optional<LocalDateTime> acquired) {
    return new ScanIdentity("TSE-0001", "2.25.1", "2.25.2", sopUid, acquired);
  }
}
