package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;

/**
 * Draws the legend: the colour bar with its ticks in µm and a sample of every line and hatching.
 */
final class LegendPainter {
  private static final int BAR_HEIGHT = 20;
  private static final Font WORDS = Ink.plain(13);

  private final Graphics2D g;
  private final int left;
  private final int width;

  LegendPainter(Graphics2D g, int left, int width) {
    this.g = g;
    this.left = left;
    this.width = width;
  }

  /** Paints the legend below {@code top} and returns where it ends. */
  int paint(Sheet sheet, int top) {
    int y = bar(sheet, top);
    y = lineSamples(sheet.scale(), y + 14);
    y = sheet.scale().signed() ? outlineSamples(y + 8) : y;
    return hatchSamples(y + 6, !sheet.sectors().isEmpty());
  }

  private int bar(Sheet sheet, int top) {
    ValueScale scale = sheet.scale();
    for (int i = 0; i < width; i++) {
      g.setColor(new Color(sheet.ramp().rgb((i + 0.5) / width)));
      g.fill(new Rectangle2D.Double(left + i, top, 1, BAR_HEIGHT));
    }
    g.setColor(Ink.DARK);
    g.setStroke(new BasicStroke(1f));
    g.draw(new Rectangle2D.Double(left, top, width, BAR_HEIGHT));
    g.setFont(WORDS);
    double span = scale.highMicrometres() - scale.lowMicrometres();
    for (double tick : scale.ticks()) {
      double x = left + width * (tick - scale.lowMicrometres()) / span;
      g.draw(new Line2D.Double(x, top + BAR_HEIGHT, x, top + BAR_HEIGHT + 6.0));
      String text = scale.label(tick);
      double w = g.getFontMetrics().stringWidth(text);
      double at = Math.max(left, Math.min(left + width - w, x - w / 2));
      g.drawString(text, (float) at, top + BAR_HEIGHT + 20);
    }
    String unit = scale.words() + "; values beyond the ends keep the end's colour";
    g.setColor(Ink.SOFT);
    g.setFont(Ink.plain(11.5f));
    g.drawString(unit, left, top + BAR_HEIGHT + 37);
    return top + BAR_HEIGHT + 42;
  }

  private int lineSamples(ValueScale scale, int top) {
    g.setFont(WORDS);
    int half = width / 2;
    sampleLine(left, top, 0.8f, "every " + Math.round(scale.lineMicrometres()) + " \u00B5m");
    sampleLine(
        left + half, top, 1.9f, "every " + Math.round(scale.indexMicrometres()) + " \u00B5m");
    return top + 14;
  }

  private int outlineSamples(int top) {
    outlineSample(left, top, true, "thicker, beyond noise");
    outlineSample(left + width / 2 + 8, top, false, "thinner, beyond noise");
    return top + 14;
  }

  private void outlineSample(int x, int y, boolean solid, String text) {
    g.setColor(Ink.DARK);
    g.setStroke(MapOutline.stroke(solid));
    g.draw(new Line2D.Double(x, y, x + 26.0, y));
    g.drawString(text, x + 32, y + 5);
  }

  private int hatchSamples(int top, boolean sectors) {
    int half = width / 2;
    g.setPaint(Ink.noValue());
    g.fill(new Rectangle2D.Double(left, top, 34, 16));
    g.setColor(Ink.DARK);
    g.setStroke(new BasicStroke(1f));
    g.draw(new Rectangle2D.Double(left, top, 34, 16));
    g.drawString("no value here", left + 42, top + 13);
    if (!sectors) {
      return top + 18;
    }
    g.setPaint(Ink.refused());
    g.fill(new Rectangle2D.Double(left + half, top, 34, 16));
    g.setColor(Ink.DARK);
    g.draw(new Rectangle2D.Double(left + half, top, 34, 16));
    g.drawString(GridPainter.REFUSED + " sector refused", left + half + 42, top + 13);
    return top + 18;
  }

  private void sampleLine(int x, int y, float weight, String text) {
    g.setColor(Ink.DARK);
    g.setStroke(new BasicStroke(weight));
    g.draw(new Line2D.Double(x, y, x + 34.0, y));
    g.drawString(text, x + 42, y + 5);
  }
}
