package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.region.MeasuredRegion;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionResult;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.region.UnmeasuredRegion;
import org.isopach.analysis.scan.ScanIdentity;
import org.junit.jupiter.api.Test;

class RegionPrinterTest {
  @Test
  void printsOneLineForAKindAndSaysWhatIsNotMeasurable() {
    List<RegionResult> sectors = new ArrayList<>();
    for (Sector sector : EtdrsGrids.ETDRS_1_3_6.sectors()) {
      sectors.add(new MeasuredRegion(sector.name(), sector.areaMm2(), 1, 10, 0.1, 40));
    }
    sectors.add(new MeasuredRegion("total", 28.27, 1, 90, 0.9, 40));
    RegionTable volume =
        table(
            RegionKind.INTRARETINAL_FLUID,
            sectors,
            new MeasuredRegion("scan", 36, 1, 1234.56, 1, 40),
            new RegionTable.Found(3, Optional.of(new RegionTable.Section(7, 0.01234))));
    RegionTable line =
        table(
            RegionKind.HYPERREFLECTIVE_MATERIAL,
            List.of(),
            new UnmeasuredRegion(
                "scan",
                0,
                1,
                Optional.of(false),
                OptionalDouble.of(0),
                NotMeasurable.Reason.SPANS_NO_AREA,
                "a line"),
            new RegionTable.Found(0, Optional.empty()));

    StringWriter text = new StringWriter();
    new RegionPrinter(new PrintWriter(text, true)).print(List.of(volume, line));

    assertEquals(
        """

        Regions in nL, candidates for review: scan 2.25.3
                                      centre inner disc     grid     scan | regions  section mm2
          intraretinal-fluid            10.0       50.0     90.0   1234.6 |       3       0.0123
          hyperreflective-material       n/m        n/m      n/m      n/m |       0            0
        """,
        text.toString().replace("\r\n", "\n"));
  }

  private static RegionTable table(
      RegionKind kind, List<RegionResult> sectors, RegionResult whole, RegionTable.Found found) {
    return new RegionTable(
        kind,
        new ScanIdentity("TSE-0001", "2.25.1", "2.25.2", "2.25.3", Optional.empty()),
        Optional.of(Laterality.RIGHT),
        Optional.empty(),
        Optional.empty(),
        sectors,
        whole,
        Optional.of(found));
  }
}
