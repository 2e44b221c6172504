package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.List;
import org.isopach.report.Cautions;

/** Draws a whole sheet: the map to the left, the column beside it, the cautions at the foot. */
final class SheetPainter {
  static final int WIDTH = 1340;
  static final int HEIGHT = 1056;

  /** Half the width of the map in mm: a 6 mm grid and a margin. */
  static final double HALF_MM = 3.3;

  /** Contours are drawn from a copy smoothed by this much; colours and numbers are not. */
  static final double CONTOUR_SMOOTHING_MM = 0.06;

  static final MapWindow MAP = new MapWindow(84, 150, 770, HALF_MM);
  private static final int COLUMN_LEFT = 934;
  private static final int MARGIN = 40;
  private static final int FOOT = 992;

  private SheetPainter() {}

  static BufferedImage paint(Sheet sheet) {
    BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    try {
      Ink.smooth(g);
      g.setColor(Ink.PAPER);
      g.fillRect(0, 0, WIDTH, HEIGHT);
      heading(g, sheet);
      map(g, sheet);
      new ColumnPainter(g, COLUMN_LEFT, WIDTH - MARGIN - COLUMN_LEFT, FOOT - 20).paint(sheet, 112);
      foot(g, sheet);
    } finally {
      g.dispose();
    }
    return image;
  }

  private static void heading(Graphics2D g, Sheet sheet) {
    g.setColor(Ink.DARK);
    g.setFont(Ink.bold(27));
    g.drawString(sheet.title(), MARGIN, 54);
    g.setFont(Ink.plain(15));
    g.setColor(Ink.SOFT);
    g.drawString(sheet.subtitle(), MARGIN, 80);
    g.setColor(Ink.DARK);
    g.setFont(Ink.bold(27));
    g.drawString(sheet.eyes(), COLUMN_LEFT, 54);
  }

  private static void map(Graphics2D g, Sheet sheet) {
    Rectangle2D bounds = MAP.bounds();
    LabelSpace space = new LabelSpace(bounds);
    List<SheetSector> refused = sheet.sectors().stream().filter(SheetSector::refused).toList();
    ValueField calm = sheet.field().smoothed(CONTOUR_SMOOTHING_MM).without(refused);
    FramePainter frame = new FramePainter(g, MAP);
    GridPainter grid = new GridPainter(g, MAP, sheet.sectors());
    ContourPainter contours = new ContourPainter(g, MAP, space);

    FieldPainter.paint(g, MAP, sheet.field(), sheet);
    Shape before = g.getClip();
    g.clip(bounds);
    contours.paintLines(calm, sheet.scale());
    grid.paintLines();
    sheet.outlines().forEach(outline -> outline.paint(g, MAP));
    grid.reserve(space);
    frame.paintScaleBar(space);
    contours.paintLabels(calm, sheet.scale());
    grid.paintNumbers();
    g.setClip(before);
    frame.paintBorder();
    frame.paintDirections(sheet.laterality());
  }

  private static void foot(Graphics2D g, Sheet sheet) {
    g.setColor(Ink.DARK);
    g.setStroke(new BasicStroke(1f));
    g.draw(new Line2D.Double(MARGIN, FOOT - 14.0, WIDTH - (double) MARGIN, FOOT - 14.0));
    g.setFont(Ink.bold(14));
    g.drawString(Cautions.LINE, MARGIN, FOOT + 8);
    g.setFont(Ink.plain(11.5f));
    g.setColor(Ink.SOFT);
    int y = FOOT + 28;
    for (String line : sheet.provenance()) {
      g.drawString(line, MARGIN, y);
      y += 16;
    }
  }
}
