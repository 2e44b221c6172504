package org.isopach.report.picture;

import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.image.BufferedImage;

/** Paints the values of a field as colours, and hatching where there are none. */
final class FieldPainter {
  private FieldPainter() {}

  static void paint(Graphics2D g, MapWindow window, ValueField field, Sheet sheet) {
    Rectangle box = window.bounds();
    g.setPaint(Ink.noValue());
    g.fill(box);
    BufferedImage colours = new BufferedImage(box.width, box.height, BufferedImage.TYPE_INT_ARGB);
    int[] line = new int[box.width];
    for (int row = 0; row < box.height; row++) {
      double yMm = window.yMm(box.y + row);
      for (int column = 0; column < box.width; column++) {
        float value = field.sample(window.xMm(box.x + column), yMm);
        line[column] =
            Float.isNaN(value) ? 0 : 0xFF000000 | sheet.ramp().rgb(sheet.scale().share(value));
      }
      Pixels.set(colours, 0, row, line);
    }
    g.drawImage(colours, box.x, box.y, null);
  }
}
