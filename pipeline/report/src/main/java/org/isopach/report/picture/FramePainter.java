package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.AffineTransform;
import java.awt.geom.Rectangle2D;
import org.isopach.analysis.eye.Laterality;

/** Draws what surrounds the map: the graduated border, directions and the scale bar. */
final class FramePainter {
  private static final int BORDER_PX = 9;
  private static final Font DIRECTION = Ink.bold(16);
  private static final Font GRADUATION = Ink.plain(12);

  private final Graphics2D g;
  private final MapWindow window;

  FramePainter(Graphics2D g, MapWindow window) {
    this.g = g;
    this.window = window;
  }

  void paintBorder() {
    Rectangle box = window.bounds();
    int b = BORDER_PX;
    g.setColor(Ink.PAPER);
    g.setStroke(new BasicStroke(b));
    g.draw(new Rectangle2D.Double(box.x - b / 2.0, box.y - b / 2.0, box.width + b, box.height + b));
    int whole = (int) Math.floor(window.halfMm());
    g.setColor(Ink.DARK);
    for (int mm = -whole - 1; mm <= whole; mm++) {
      if (Math.floorMod(mm, 2) == 0) {
        double from = Math.max(mm, -window.halfMm());
        double to = Math.min(mm + 1, window.halfMm());
        borderPiece(from, to);
      }
    }
    g.setStroke(new BasicStroke(1f));
    g.draw(box);
    g.draw(new Rectangle(box.x - b, box.y - b, box.width + 2 * b, box.height + 2 * b));
    graduations(whole);
  }

  void paintDirections(Laterality laterality) {
    Rectangle box = window.bounds();
    boolean nasalRight = laterality.nasalSign() > 0;
    int off = BORDER_PX + 34;
    direction("superior", box.getCenterX(), box.y - off, 0);
    direction("inferior", box.getCenterX(), box.getMaxY() + off, 0);
    direction(nasalRight ? "temporal" : "nasal", box.x - off, box.getCenterY(), -Math.PI / 2);
    direction(
        nasalRight ? "nasal" : "temporal", box.getMaxX() + off, box.getCenterY(), Math.PI / 2);
  }

  /** Draws a bar of one millimetre in two halves, in the lower left corner of the map. */
  void paintScaleBar(LabelSpace space) {
    Rectangle box = window.bounds();
    double mm = window.pixelsPerMm();
    double x = box.x + 22.0;
    double y = box.getMaxY() - 26;
    Rectangle2D plate = new Rectangle2D.Double(x - 10, y - 24, mm + 58, 40);
    space.take(plate, 2);
    g.setColor(Ink.HALO);
    g.fill(plate);
    g.setColor(Ink.DARK);
    g.setStroke(new BasicStroke(1f));
    g.draw(plate);
    g.fill(new Rectangle2D.Double(x, y, mm / 2, 6));
    g.draw(new Rectangle2D.Double(x, y, mm, 6));
    g.setFont(GRADUATION);
    centred("0", x, y - 6);
    centred("0.5", x + mm / 2, y - 6);
    centred("1 mm", x + mm + 12, y - 6);
  }

  private void borderPiece(double fromMm, double toMm) {
    Rectangle box = window.bounds();
    int b = BORDER_PX;
    double x0 = window.xPx(fromMm);
    double x1 = window.xPx(toMm);
    double y0 = window.yPx(fromMm);
    double y1 = window.yPx(toMm);
    g.fill(new Rectangle2D.Double(x0, box.y - b, x1 - x0, b));
    g.fill(new Rectangle2D.Double(x0, box.getMaxY(), x1 - x0, b));
    g.fill(new Rectangle2D.Double(box.x - b, y0, b, y1 - y0));
    g.fill(new Rectangle2D.Double(box.getMaxX(), y0, b, y1 - y0));
  }

  private void graduations(int whole) {
    Rectangle box = window.bounds();
    g.setFont(GRADUATION);
    g.setColor(Ink.SOFT);
    for (int mm = -whole; mm <= whole; mm++) {
      String text = Integer.toString(Math.abs(mm));
      centred(text, window.xPx(mm), box.y - BORDER_PX - 5);
      centred(text, window.xPx(mm), box.getMaxY() + BORDER_PX + 15);
      centred(text, box.x - BORDER_PX - 11, window.yPx(mm) + 4);
      centred(text, box.getMaxX() + BORDER_PX + 11, window.yPx(mm) + 4);
    }
  }

  private void direction(String word, double x, double y, double radians) {
    AffineTransform before = g.getTransform();
    g.setFont(DIRECTION);
    g.setColor(Ink.DARK);
    g.translate(x, y);
    g.rotate(radians);
    centred(word, 0, 5);
    g.setTransform(before);
  }

  private void centred(String text, double x, double y) {
    FontMetrics metrics = g.getFontMetrics();
    g.drawString(text, (float) (x - metrics.stringWidth(text) / 2.0), (float) y);
  }
}
