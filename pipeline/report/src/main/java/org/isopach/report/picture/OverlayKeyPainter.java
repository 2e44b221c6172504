package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.Locale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.region.RegionKind;

/** Writes the column beside a frame: whose it is, what lines and outlines mean, where it lies. */
final class OverlayKeyPainter {
  private static final Font LABEL = Ink.plain(12.5f);
  private static final Font TEXT = Ink.plain(14);
  private static final Font NAME = Ink.plain(13);
  private static final Color GROUND = new Color(0x2A3138);
  private static final int LABEL_WIDTH = 66;
  private static final int ROW = 19;
  private static final int SWATCH = 44;
  private static final int PLAN = 120;
  private static final double PLAN_HALF_MM = 3.6;

  private final Graphics2D g;
  private final int left;
  private final int width;

  OverlayKeyPainter(Graphics2D g, int left, int width) {
    this.g = g;
    this.left = left;
    this.width = width;
  }

  void paint(FrameScene scene, FrameWindow window) {
    int y = 92;
    y = fact("patient", PictureWords.patient(scene.scan().identity().patientId()), y);
    y = fact("acquired", PictureWords.dateTime(scene.scan().identity().acquired()), y);
    y = fact("depth", stretch(window), y);
    y = plan(scene, y);
    y = lines(scene, y + 16);
    regions(scene, y + 12);
  }

  private int fact(String label, String text, int y) {
    g.setColor(Ink.SOFT);
    g.setFont(LABEL);
    g.drawString(label, left, y);
    g.setColor(Ink.DARK);
    return WrappedText.draw(g, TEXT, text, left + LABEL_WIDTH, y, width - LABEL_WIDTH) + 3;
  }

  private static String stretch(FrameWindow window) {
    if (window.pixelsPerMm().isEmpty()) {
      return "proportions not to scale: where the A-scans lie is not stated";
    }
    return "stretched " + String.format(Locale.ROOT, "%.1f", window.stretch()) + " to 1";
  }

  /** Draws the frame among circles of 1, 3 and 6 mm round the centre. */
  private int plan(FrameScene scene, int top) {
    if (scene.centre().isEmpty() || scene.path().isEmpty()) {
      return top;
    }
    double middleX = left + LABEL_WIDTH + PLAN / 2.0;
    double middleY = top + PLAN / 2.0;
    double scale = PLAN / (2 * PLAN_HALF_MM);
    g.setColor(Ink.SOFT);
    g.setFont(LABEL);
    g.drawString("place", left, top + 8);
    g.setStroke(new BasicStroke(1f));
    for (double radius : new double[] {0.5, 1.5, 3}) {
      double r = radius * scale;
      g.draw(new Ellipse2D.Double(middleX - r, middleY - r, 2 * r, 2 * r));
    }
    ScanPath path = scene.path().get();
    FundusPoint centre = scene.centre().get().point();
    FundusPoint from = path.point(scene.frame(), 0).minus(centre);
    FundusPoint to = path.point(scene.frame(), path.ascans() - 1).minus(centre);
    g.setColor(Ink.DARK);
    g.setStroke(new BasicStroke(2.4f));
    g.draw(
        new Line2D.Double(
            middleX + from.xMm() * scale,
            middleY + from.yMm() * scale,
            middleX + to.xMm() * scale,
            middleY + to.yMm() * scale));
    return top + PLAN + 8;
  }

  private int lines(FrameScene scene, int top) {
    int y = heading("boundaries", top);
    for (Boundary boundary : scene.boundaries().boundaries()) {
      BoundaryInk ink = BoundaryInk.of(boundary);
      swatch(y);
      g.setColor(ink.colour());
      g.setStroke(ink.stroke());
      g.draw(new Line2D.Double(left + 4.0, y - 5.0, left + SWATCH - 4.0, y - 5.0));
      text(boundary.code(), y);
      y += ROW;
    }
    return y;
  }

  private void regions(FrameScene scene, int top) {
    int y = heading("regions", top);
    if (scene.labels().searched().isEmpty() || !scene.labels().searched(scene.frame())) {
      g.setColor(Ink.DARK);
      WrappedText.draw(g, TEXT, "not looked for in this frame", left, y, width);
      return;
    }
    for (RegionKind kind : scene.labels().searched()) {
      RegionInk ink = RegionInk.of(kind);
      swatch(y);
      g.setColor(Color.WHITE);
      g.setStroke(ink.stroke());
      g.draw(new Line2D.Double(left + 4.0, y - 5.0, left + SWATCH - 4.0, y - 5.0));
      text(ink.letter() + "  " + ink.words(), y);
      y += ROW;
    }
    if (!scene.labels().any(scene.frame())) {
      g.setColor(Ink.DARK);
      WrappedText.draw(g, TEXT, "none found in this frame", left, y, width);
    }
  }

  private int heading(String word, int y) {
    g.setColor(Ink.SOFT);
    g.setFont(LABEL);
    g.drawString(word, left, y);
    g.setColor(Ink.RULE);
    g.setStroke(new BasicStroke(1f));
    g.draw(new Line2D.Double(left, y + 6.0, left + (double) width, y + 6.0));
    return y + ROW + 4;
  }

  private void swatch(int y) {
    g.setColor(GROUND);
    g.fill(new Rectangle2D.Double(left, y - 12.0, SWATCH, 14));
  }

  private void text(String words, int y) {
    g.setColor(Ink.DARK);
    g.setFont(NAME);
    g.drawString(words, left + SWATCH + 8, y);
  }
}
