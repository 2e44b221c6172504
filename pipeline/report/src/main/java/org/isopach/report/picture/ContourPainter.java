package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.stream.DoubleStream;

/**
 * Draws lines of equal value, thin ones between heavy ones, and writes the value into the heavy
 * ones.
 */
final class ContourPainter {
  private static final double SHORTEST_LINE_MM = 0.35;
  private static final double SHORTEST_LABELLED_MM = 0.9;
  private static final double LABEL_EVERY_MM = 5.5;
  private static final Font LETTERS = Ink.plain(13);
  private static final Color THIN = new Color(0x1E, 0x2A, 0x33, 0x90);
  private static final Color HEAVY = new Color(0x1E, 0x2A, 0x33, 0xE0);
  private static final Color FAINT_RIM = new Color(0xFB, 0xFA, 0xF4, 0x38);
  private static final Color RIM = new Color(0xFB, 0xFA, 0xF4, 0x70);

  private final Graphics2D g;
  private final MapWindow window;
  private final LabelSpace space;

  ContourPainter(Graphics2D g, MapWindow window, LabelSpace space) {
    this.g = g;
    this.window = window;
    this.space = space;
  }

  void paintLines(ValueField field, ValueScale scale) {
    double[] levels = levels(field, scale, scale.lineMicrometres());
    List<List<Contour>> lines = ContourTracer.trace(field, levels);
    for (int i = 0; i < levels.length; i++) {
      for (Contour contour : lines.get(i)) {
        if (contour.lengthMm() >= SHORTEST_LINE_MM) {
          stroke(contour, scale.isIndex(levels[i]));
        }
      }
    }
  }

  void paintLabels(ValueField field, ValueScale scale) {
    double[] levels = levels(field, scale, scale.indexMicrometres());
    List<List<Contour>> lines = ContourTracer.trace(field, levels);
    for (int i = 0; i < levels.length; i++) {
      for (Contour contour : lines.get(i)) {
        if (contour.lengthMm() >= SHORTEST_LABELLED_MM) {
          label(contour, scale.label(levels[i]));
        }
      }
    }
  }

  /** Returns the levels within the field that have lines, in ascending order. */
  private static double[] levels(ValueField field, ValueScale scale, double step) {
    double[] range = range(field);
    DoubleStream.Builder levels = DoubleStream.builder();
    for (double n = Math.ceil(range[0] / step); n * step <= range[1]; n++) {
      if (scale.hasLine(n * step)) {
        levels.add(n * step);
      }
    }
    return levels.build().toArray();
  }

  private void stroke(Contour contour, boolean heavy) {
    Path2D path = new Path2D.Double();
    path.moveTo(window.xPx(contour.xMm(0)), window.yPx(contour.yMm(0)));
    for (int i = 1; i < contour.points(); i++) {
      path.lineTo(window.xPx(contour.xMm(i)), window.yPx(contour.yMm(i)));
    }
    g.setColor(heavy ? RIM : FAINT_RIM);
    g.setStroke(
        new BasicStroke(heavy ? 3.6f : 2.2f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    g.draw(path);
    g.setColor(heavy ? HEAVY : THIN);
    g.setStroke(
        new BasicStroke(heavy ? 1.7f : 0.8f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    g.draw(path);
  }

  private void label(Contour contour, String text) {
    int wanted = Math.max(1, (int) Math.round(contour.lengthMm() / LABEL_EVERY_MM));
    int stride = Math.max(1, contour.points() / wanted);
    for (int n = 0; n < wanted; n++) {
      for (int shift = 0; shift < stride; shift += 5) {
        int at = (n * stride + stride / 3 + shift) % contour.points();
        if (tryLabel(contour, at, text)) {
          break;
        }
      }
    }
  }

  private boolean tryLabel(Contour contour, int at, String text) {
    int reach = 6;
    int from = Math.max(0, at - reach);
    int to = Math.min(contour.points() - 1, at + reach);
    double dx = contour.xMm(to) - contour.xMm(from);
    double dy = contour.yMm(to) - contour.yMm(from);
    double x = window.xPx(contour.xMm(at));
    double y = window.yPx(contour.yMm(at));
    double angle = Math.atan2(dy, dx);
    if (Math.abs(angle) > Math.PI / 2) {
      angle -= Math.signum(angle) * Math.PI;
    }
    Rectangle2D flat = Ink.box(g, LETTERS, text, x, y);
    double side = Math.max(flat.getWidth(), flat.getHeight());
    double w = Math.abs(Math.cos(angle)) * flat.getWidth() + Math.abs(Math.sin(angle)) * 12;
    double h = Math.min(side, Math.abs(Math.sin(angle)) * flat.getWidth() + 12);
    if (!space.tryTake(new Rectangle2D.Double(x - w / 2, y - h / 2, w, h), 4)) {
      return false;
    }
    Ink.label(g, LETTERS, text, x, y, angle);
    return true;
  }

  private static double[] range(ValueField field) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int r = 0; r < field.lattice().rows(); r++) {
      for (int c = 0; c < field.lattice().columns(); c++) {
        float value = field.at(r, c);
        if (!Float.isNaN(value)) {
          low = Math.min(low, value);
          high = Math.max(high, value);
        }
      }
    }
    return new double[] {low, high};
  }
}
