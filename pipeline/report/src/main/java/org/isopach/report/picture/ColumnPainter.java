package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;

/** Writes the column beside the map: whose eye, when, the legend, the numbers, what was refused. */
final class ColumnPainter {
  private static final Font LABEL = Ink.plain(12.5f);
  private static final Font TEXT = Ink.plain(14);
  private static final Font FIGURES = Ink.bold(14);
  private static final int LABEL_WIDTH = 92;
  private static final int ROW = 22;
  private static final int VALUE_END = 172;
  private static final int THIRD_END = 284;

  private final Graphics2D g;
  private final int left;
  private final int width;
  private final int bottom;

  ColumnPainter(Graphics2D g, int left, int width, int bottom) {
    this.g = g;
    this.left = left;
    this.width = width;
    this.bottom = bottom;
  }

  void paint(Sheet sheet, int top) {
    int y = facts(sheet, top);
    y = new LegendPainter(g, left, width).paint(sheet, y + 10);
    y = table(sheet, y + 30);
    notes(sheet, y + 8);
  }

  private int facts(Sheet sheet, int top) {
    int y = top;
    for (Sheet.Fact fact : sheet.facts()) {
      g.setColor(Ink.SOFT);
      g.setFont(LABEL);
      g.drawString(fact.label(), left, y);
      g.setColor(Ink.DARK);
      y = WrappedText.draw(g, TEXT, fact.text(), left + LABEL_WIDTH, y, width - LABEL_WIDTH) + 4;
    }
    return y;
  }

  private int table(Sheet sheet, int top) {
    int y = top;
    g.setColor(Ink.SOFT);
    g.setFont(LABEL);
    g.drawString("sector", left, y);
    endingAt(VALUE_END, "\u00B5m", y);
    endingAt(THIRD_END, sheet.headings().third(), y);
    endingAt(width, sheet.headings().fourth(), y);
    rule(y + 6);
    y += ROW;
    for (Sheet.Row row : sheet.rows()) {
      g.setColor(Ink.DARK);
      g.setFont(TEXT);
      g.drawString(row.name(), left, y);
      g.setFont(FIGURES);
      endingAt(VALUE_END, row.value().orElse(GridPainter.REFUSED), y);
      g.setColor(Ink.SOFT);
      g.setFont(LABEL);
      endingAt(THIRD_END, row.third(), y);
      endingAt(width, row.fourth(), y);
      y += ROW;
    }
    rule(y - ROW + 7);
    return y;
  }

  private void notes(Sheet sheet, int top) {
    int y = top;
    g.setColor(Ink.DARK);
    for (String note : sheet.notes()) {
      if (y < bottom) {
        y = WrappedText.draw(g, LABEL, note, left, y, width) + 4;
      }
    }
  }

  private void endingAt(int offset, String text, int y) {
    g.drawString(text, left + offset - g.getFontMetrics().stringWidth(text), y);
  }

  private void rule(int y) {
    g.setColor(Ink.RULE);
    g.setStroke(new BasicStroke(1f));
    g.draw(new Line2D.Double(left, y, left + (double) width, y));
  }
}
