package org.isopach.report.pdf;

import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.report.picture.MapLegend;
import org.isopach.report.picture.MapPicture;

/** One layer: its map to the left, its sectors to the right, what was refused below. */
final class LayerSection {
  private static final double MAP = 272;
  private static final double LEGEND = 46;
  private static final double TABLE = PdfFlow.RIGHT - SectorColumns.WIDTH;

  private LayerSection() {}

  static void set(PdfFlow flow, ScanReport.Mapped layer) throws IOException {
    Layer of = layer.map().layer();
    List<String> refusals = refusals(layer.table());
    double notes = refusals.size() * Style.LABEL.leading() + (refusals.isEmpty() ? 0 : 16);
    flow.heading(name(of), MapPicture.words(of), MAP + LEGEND + Math.min(notes, 120));
    PdfCanvas canvas = flow.canvas();
    double top = flow.y() - 8;
    String alternative =
        "Map of the thickness "
            + name(of)
            + ", "
            + layer.map().laterality().word()
            + " eye; its numbers are in the table that follows";
    canvas.picture(MapPicture.of(layer.sheet()), PdfFlow.LEFT, top, MAP, alternative);
    legend(canvas, MapPicture.legend(of), top + MAP + 8);
    double below = SectorColumns.draw(canvas, layer.table(), TABLE, top + 20) + 6;
    summary(canvas, layer.table(), below);
    flow.skip(MAP + LEGEND);
    if (!refusals.isEmpty()) {
      flow.paragraph(Style.SMALL_STRONG, "Refused (" + SectorColumns.REFUSED + ")");
      for (String refusal : refusals) {
        flow.paragraph(Style.LABEL, refusal);
      }
    }
  }

  /** Returns a layer's name with a dash. */
  static String name(Layer layer) {
    return layer.inner().code() + "\u2013" + layer.outer().code();
  }

  private static void summary(PdfCanvas canvas, SectorTable table, double y) throws IOException {
    double at = pair(canvas, y, "centre point", centrePoint(table));
    at = pair(canvas, at, "volume of the grid", volume(table));
    at = pair(canvas, at, "grid", table.grid().name());
    pair(
        canvas,
        at,
        "a sector needs",
        Math.round(100 * table.minimumCoverage()) + " % of its area covered");
  }

  private static double pair(PdfCanvas canvas, double y, String label, String text)
      throws IOException {
    canvas.text("P", Style.LABEL, TABLE, y, label);
    canvas.text("P", Style.TEXT, TABLE + 82, y, text);
    return y + 14;
  }

  private static String centrePoint(SectorTable table) {
    return table.centrePoint() instanceof Measured measured
        ? SectorColumns.fixed(measured.meanUm(), 1) + " µm"
        : "not measurable";
  }

  private static String volume(SectorTable table) {
    return table
        .sector(SectorGrid.TOTAL)
        .filter(Measured.class::isInstance)
        .map(Measured.class::cast)
        .map(
            total ->
                SectorColumns.fixed(total.volumeMm3(), 3)
                    + " mm³ in "
                    + SectorColumns.fixed(total.areaMm2(), 2)
                    + " mm²")
        .orElse("not measurable");
  }

  /** Returns what was refused and why: the centre point, then the sectors in their order. */
  static List<String> refusals(SectorTable table) {
    return Stream.concat(Stream.of(table.centrePoint()), table.sectors().stream())
        .filter(NotMeasurable.class::isInstance)
        .map(NotMeasurable.class::cast)
        .map(refused -> refused.sector() + ": " + refused.detail())
        .toList();
  }

  private static void legend(PdfCanvas canvas, MapLegend legend, double y) throws IOException {
    double left = PdfFlow.LEFT + 20;
    double width = MAP - 40;
    double step = width / legend.colours().size();
    for (int i = 0; i < legend.colours().size(); i++) {
      canvas.fill(left + i * step, y, step + 0.3, 8, legend.colours().get(i));
    }
    double span = legend.highUm() - legend.lowUm();
    for (double tick : legend.ticksUm()) {
      String text = SectorColumns.fixed(tick, 0);
      double x = left + width * (tick - legend.lowUm()) / span;
      double half = canvas.width(Style.SMALL, text) / 2;
      canvas.furniture(Style.SMALL, x - half, y + 16, text);
    }
    canvas.text(
        "Caption",
        Style.SMALL,
        left,
        y + 26,
        "µm; lines every "
            + SectorColumns.fixed(legend.lineUm(), 0)
            + " µm, heavy every "
            + SectorColumns.fixed(legend.indexUm(), 0)
            + " µm; hatched: no value");
  }
}
