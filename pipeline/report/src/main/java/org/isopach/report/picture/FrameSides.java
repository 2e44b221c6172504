package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;

/** Says which way a frame runs, and draws bars for its two scales. */
final class FrameSides {
  private static final double BAR_MM = 0.5;
  private static final double BAR_MICROMETRES = 200;

  private FrameSides() {}

  static void paint(Graphics2D g, FrameScene scene, FrameWindow window) {
    Rectangle2D box = window.bounds();
    g.setFont(Ink.bold(14));
    g.setColor(Ink.DARK);
    float y = (float) box.getY() - 9;
    String first = end(scene, false);
    String last = end(scene, true);
    g.drawString(first, (float) box.getX(), y);
    g.drawString(last, (float) box.getMaxX() - g.getFontMetrics().stringWidth(last), y);
    bars(g, window);
  }

  /** Returns the word for the direction in which a frame's end lies from its other end. */
  static String end(FrameScene scene, boolean last) {
    if (scene.path().isEmpty()) {
      return last ? "last A-scan" : "first A-scan";
    }
    ScanPath path = scene.path().get();
    FundusPoint along =
        path.point(scene.frame(), path.ascans() - 1).minus(path.point(scene.frame(), 0));
    double sign = last ? 1 : -1;
    if (Math.abs(along.yMm()) > Math.abs(along.xMm())) {
      return sign * along.yMm() > 0 ? "inferior" : "superior";
    }
    if (scene.scan().laterality().isEmpty()) {
      return sign * along.xMm() > 0 ? "right of the picture" : "left of the picture";
    }
    Laterality eye = scene.scan().laterality().get();
    return sign * along.xMm() * eye.nasalSign() > 0 ? "nasal" : "temporal";
  }

  private static void bars(Graphics2D g, FrameWindow window) {
    Rectangle2D box = window.bounds();
    double x = box.getX() + 20;
    double y = box.getMaxY() - 20;
    double high = BAR_MICROMETRES * window.pixelsPerMicrometre();
    double wide = window.pixelsPerMm().orElse(0) * BAR_MM;
    g.setColor(new Color(0, 0, 0, 170));
    g.fill(new Rectangle2D.Double(x - 10, y - high - 10, Math.max(wide, 60) + 20, high + 20));
    g.setColor(Color.WHITE);
    g.setStroke(new BasicStroke(2f));
    g.fill(new Rectangle2D.Double(x, y - high, 3, high));
    g.setFont(Ink.plain(12));
    g.drawString((int) BAR_MICROMETRES + " \u00B5m", (float) x + 9, (float) (y - high / 2) + 4);
    if (wide > 0) {
      g.fill(new Rectangle2D.Double(x, y - 3, wide, 3));
      String text = BAR_MM + " mm";
      g.drawString(text, (float) (x + wide - g.getFontMetrics().stringWidth(text)), (float) y - 8);
    }
  }
}
