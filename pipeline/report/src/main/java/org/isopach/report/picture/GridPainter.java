package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.util.List;

/** Draws the grid over the map and writes the sectors' numbers into it. */
final class GridPainter {
  static final Font NUMBERS = Ink.bold(20);
  static final String REFUSED = "n/m";
  private static final Color RIM = new Color(0xFB, 0xFA, 0xF4, 0xB0);

  private final Graphics2D g;
  private final MapWindow window;
  private final List<SheetSector> sectors;

  GridPainter(Graphics2D g, MapWindow window, List<SheetSector> sectors) {
    this.g = g;
    this.window = window;
    this.sectors = sectors;
  }

  void paintLines() {
    for (SheetSector sector : sectors) {
      if (sector.refused()) {
        g.setPaint(Ink.refused());
        g.fill(window.outline(sector));
      }
    }
    strokeAll(RIM, 3.4f);
    strokeAll(Ink.DARK, 1.4f);
  }

  /** Reserves the numbers' places before any other label looks for one. */
  void reserve(LabelSpace space) {
    for (SheetSector sector : sectors) {
      space.take(
          Ink.box(
              g,
              NUMBERS,
              text(sector),
              window.xPx(sector.labelXMm()),
              window.yPx(sector.labelYMm())),
          5);
    }
  }

  void paintNumbers() {
    for (SheetSector sector : sectors) {
      Ink.label(
          g,
          NUMBERS,
          text(sector),
          window.xPx(sector.labelXMm()),
          window.yPx(sector.labelYMm()),
          0);
    }
  }

  private static String text(SheetSector sector) {
    return sector.value().orElse(REFUSED);
  }

  private void strokeAll(Color colour, float width) {
    g.setColor(colour);
    g.setStroke(new BasicStroke(width));
    for (SheetSector sector : sectors) {
      Shape outline = window.outline(sector);
      g.draw(outline);
    }
  }
}
