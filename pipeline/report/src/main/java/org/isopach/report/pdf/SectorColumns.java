package org.isopach.report.pdf;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;

/** The table of one layer's sectors. */
final class SectorColumns {
  static final double WIDTH = 222;
  static final String REFUSED = "n/m";

  private static final List<String> HEADINGS = List.of("mean", "SD", "min", "max", "covered");
  private static final double[] RIGHT = {118, 141, 163, 185, WIDTH};
  private static final double ROW = 13.5;

  private SectorColumns() {}

  /** Draws the table at a place and returns where it ends. */
  static double draw(PdfCanvas canvas, SectorTable table, double x, double y) throws IOException {
    canvas.tags().open("Table");
    canvas.tags().open("TR");
    canvas.text("TH", Style.SMALL, x, y, "sector; thickness in µm");
    for (int i = 0; i < RIGHT.length; i++) {
      canvas.textTo("TH", Style.SMALL, x + RIGHT[i], y, words(i));
    }
    canvas.tags().close();
    canvas.rule(x, x + WIDTH, y + 4, 0.8);
    double at = y + ROW + 1;
    for (SectorResult result : table.sectors()) {
      row(canvas, result, x, at);
      at += ROW;
    }
    canvas.tags().close();
    canvas.rule(x, x + WIDTH, at - ROW + 4, 0.8);
    return at;
  }

  private static String words(int column) {
    return HEADINGS.get(column);
  }

  private static void row(PdfCanvas canvas, SectorResult result, double x, double y)
      throws IOException {
    canvas.tags().open("TR");
    canvas.text("TH", Style.TEXT, x, y, result.sector());
    List<String> cells = cells(result);
    for (int i = 0; i < RIGHT.length; i++) {
      Style style = i == 0 ? Style.STRONG : Style.LABEL;
      canvas.textTo("TD", style, x + RIGHT[i], y, cells.get(i));
    }
    canvas.tags().close();
  }

  private static List<String> cells(SectorResult result) {
    String covered = Math.round(100 * result.coveredFraction()) + " %";
    return result instanceof Measured measured
        ? List.of(
            fixed(measured.meanUm(), 1),
            fixed(measured.sdUm(), 1),
            fixed(measured.minUm(), 0),
            fixed(measured.maxUm(), 0),
            covered)
        : List.of(REFUSED, "", "", "", covered);
  }

  /** Returns a number with a fixed number of decimals. */
  static String fixed(double value, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }
}
