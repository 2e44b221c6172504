package org.isopach.report.pdf;

import java.io.IOException;
import java.util.List;
import java.util.Set;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;

/** The means of every layer, a row for each, a column for each sector. */
final class LayerMatrix {
  private static final double NAMES = 132;
  private static final double ROW = 13;

  private LayerMatrix() {}

  /**
   * Sets the table, and below it what was refused of the layers that have no map of their own.
   *
   * @param mapped the layers whose refusals stand with their map
   */
  static void set(PdfFlow flow, List<SectorTable> tables, Set<Layer> mapped) throws IOException {
    flow.heading("Every layer: mean thickness in µm", (tables.size() + 3) * ROW);
    PdfCanvas canvas = flow.canvas();
    List<SectorResult> columns = tables.get(0).sectors();
    double step = (PdfFlow.WIDTH - NAMES) / columns.size();
    canvas.tags().open("Table");
    canvas.tags().open("TR");
    canvas.text("TH", Style.SMALL, PdfFlow.LEFT, flow.y() + 9, "layer");
    for (int i = 0; i < columns.size(); i++) {
      String[] parts = columns.get(i).sector().split("-", 2);
      double right = PdfFlow.LEFT + NAMES + (i + 1) * step;
      canvas.textTo("TH", Style.SMALL, right, flow.y(), parts[0]);
      if (parts.length > 1) {
        canvas.textTo("TH", Style.SMALL, right, flow.y() + 9, parts[1]);
      }
    }
    canvas.tags().close();
    canvas.rule(PdfFlow.LEFT, PdfFlow.RIGHT, flow.y() + 13, 0.8);
    flow.skip(24);
    for (SectorTable table : tables) {
      row(canvas, table, step, flow.y());
      flow.skip(ROW);
    }
    canvas.tags().close();
    canvas.rule(PdfFlow.LEFT, PdfFlow.RIGHT, flow.y() - ROW + 4, 0.8);
    flow.skip(4);
    flow.paragraph(
        Style.SMALL,
        SectorColumns.REFUSED
            + ": not measurable; the reason stands with the layer's map, or below.");
    for (SectorTable table : tables) {
      List<String> refusals = LayerSection.refusals(table);
      if (!mapped.contains(table.layer()) && !refusals.isEmpty()) {
        flow.paragraph(
            Style.LABEL,
            LayerSection.name(table.layer()) + " refused: " + String.join("; ", refusals));
      }
    }
  }

  private static void row(PdfCanvas canvas, SectorTable table, double step, double y)
      throws IOException {
    canvas.tags().open("TR");
    canvas.text("TH", Style.LABEL, PdfFlow.LEFT, y, name(table));
    double right = PdfFlow.LEFT + NAMES;
    for (SectorResult result : table.sectors()) {
      right += step;
      canvas.textTo(
          "TD",
          Style.TEXT,
          right,
          y,
          result instanceof Measured measured
              ? SectorColumns.fixed(measured.meanUm(), 1)
              : SectorColumns.REFUSED);
    }
    canvas.tags().close();
  }

  private static String name(SectorTable table) {
    String full = LayerSection.name(table.layer());
    String brief = LayerCatalogue.shortName(table.layer());
    return brief.equals(table.layer().name()) ? full : full + " (" + brief + ")";
  }
}
