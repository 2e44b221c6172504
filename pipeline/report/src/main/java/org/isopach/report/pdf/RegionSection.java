package org.isopach.report.pdf;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.region.MeasuredRegion;
import org.isopach.analysis.region.RegionResult;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.region.UnmeasuredRegion;

/** Fluid and other regions, a row for each kind that was looked for. */
final class RegionSection {
  private static final List<String> HEADINGS =
      List.of("centre nL", "grid nL", "scan nL", "area mm²", "tallest µm", "regions", "looked at");
  private static final double NAMES = 120;
  private static final double ROW = 13.5;
  private static final String CENTRE = "centre";

  private RegionSection() {}

  static void set(PdfFlow flow, List<RegionTable> tables) throws IOException {
    if (tables.isEmpty()) {
      flow.heading("Fluid and other regions", ROW);
      flow.paragraph(Style.TEXT, "not looked for in this scan");
      return;
    }
    flow.heading("Fluid and other regions", (tables.size() + 2) * ROW);
    PdfCanvas canvas = flow.canvas();
    canvas.tags().open("Table");
    row(canvas, "TH", Style.SMALL, "kind", HEADINGS, flow.y());
    canvas.rule(PdfFlow.LEFT, PdfFlow.RIGHT, flow.y() + 4, 0.8);
    flow.skip(ROW + 1);
    for (RegionTable table : tables) {
      row(canvas, "TD", Style.TEXT, table.kind().code(), cells(table), flow.y());
      flow.skip(ROW);
    }
    canvas.tags().close();
    canvas.rule(PdfFlow.LEFT, PdfFlow.RIGHT, flow.y() - ROW + 4, 0.8);
    flow.skip(3);
    for (String refusal : refusals(tables)) {
      flow.paragraph(Style.LABEL, refusal);
    }
  }

  private static void row(
      PdfCanvas canvas, String role, Style style, String name, List<String> cells, double y)
      throws IOException {
    double step = (PdfFlow.WIDTH - NAMES) / cells.size();
    canvas.tags().open("TR");
    canvas.text("TH", style, PdfFlow.LEFT, y, name);
    for (int i = 0; i < cells.size(); i++) {
      canvas.textTo(role, style, PdfFlow.LEFT + NAMES + (i + 1) * step, y, cells.get(i));
    }
    canvas.tags().close();
  }

  private static List<String> cells(RegionTable table) {
    RegionResult scan = table.whole();
    List<String> cells = new ArrayList<>();
    cells.add(table.place(CENTRE).map(RegionSection::volume).orElse("no grid"));
    cells.add(table.place(SectorGrid.TOTAL).map(RegionSection::volume).orElse("no grid"));
    cells.add(volume(scan));
    boolean measured = scan instanceof MeasuredRegion;
    cells.add(
        scan instanceof MeasuredRegion region
            ? SectorColumns.fixed(region.areaMm2(), 3)
            : SectorColumns.REFUSED);
    cells.add(
        scan instanceof MeasuredRegion region
            ? SectorColumns.fixed(region.maxHeightUm(), 0)
            : SectorColumns.REFUSED);
    cells.add(
        table
            .found()
            .filter(found -> measured)
            .map(found -> Integer.toString(found.regions()))
            .orElse(SectorColumns.REFUSED));
    cells.add(Math.round(100 * scan.coveredFraction()) + " %");
    return cells;
  }

  private static String volume(RegionResult place) {
    return place instanceof MeasuredRegion region
        ? SectorColumns.fixed(region.volumeNl(), 1)
        : SectorColumns.REFUSED;
  }

  private static List<String> refusals(List<RegionTable> tables) {
    List<String> refusals = new ArrayList<>();
    for (RegionTable table : tables) {
      for (String place : List.of(CENTRE, SectorGrid.TOTAL, RegionTable.SCAN)) {
        if (table.place(place).orElse(null) instanceof UnmeasuredRegion refused) {
          refusals.add(table.kind().code() + ", " + place + " refused: " + refused.detail());
        }
      }
    }
    return refusals;
  }
}
