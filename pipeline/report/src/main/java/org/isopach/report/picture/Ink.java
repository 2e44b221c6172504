package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.TexturePaint;
import java.awt.font.TextLayout;
import java.awt.geom.AffineTransform;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;

/** The drawing materials of a sheet: paper, inks, letters, hatchings. */
final class Ink {
  static final Color PAPER = new Color(0xFBFAF4);
  static final Color DARK = new Color(0x1E2A33);
  static final Color SOFT = new Color(0x5B6872);
  static final Color RULE = new Color(0xC9CCC6);
  static final Color HALO = new Color(0xFB, 0xFA, 0xF4, 0xD8);

  private static final String FAMILY = "DejaVu Sans";

  private Ink() {}

  static Font plain(float size) {
    return new Font(FAMILY, Font.PLAIN, 1).deriveFont(size);
  }

  static Font bold(float size) {
    return new Font(FAMILY, Font.BOLD, 1).deriveFont(size);
  }

  static void smooth(Graphics2D g) {
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    g.setRenderingHint(
        RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
  }

  /** Returns the box of a text whose middle lies at a place. */
  static Rectangle2D box(Graphics2D g, Font font, String text, double x, double y) {
    Rectangle2D box = new TextLayout(text, font, g.getFontRenderContext()).getBounds();
    return new Rectangle2D.Double(
        x - box.getWidth() / 2, y - box.getHeight() / 2, box.getWidth(), box.getHeight());
  }

  /** Writes a text around a place, turned, dark with a pale rim so that it reads on any colour. */
  static void label(Graphics2D g, Font font, String text, double x, double y, double radians) {
    TextLayout layout = new TextLayout(text, font, g.getFontRenderContext());
    Rectangle2D box = layout.getBounds();
    AffineTransform place = AffineTransform.getTranslateInstance(x, y);
    place.rotate(radians);
    place.translate(-box.getCenterX(), -box.getCenterY());
    Shape letters = layout.getOutline(place);
    g.setColor(HALO);
    g.setStroke(
        new BasicStroke(font.getSize2D() / 3.5f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    g.draw(letters);
    g.setColor(DARK);
    g.fill(letters);
  }

  /** Returns sparse diagonal lines on pale paper: no value here. */
  static TexturePaint noValue() {
    return hatching(10, new Color(0xECEBE4), new Color(0xA9AFB0), false);
  }

  /** Returns crossed lines on nothing: a sector that is refused. */
  static TexturePaint refused() {
    return hatching(14, new Color(0xFB, 0xFA, 0xF4, 0xB0), new Color(0x1E, 0x2A, 0x33, 0xA0), true);
  }

  private static TexturePaint hatching(int step, Color ground, Color line, boolean crossed) {
    BufferedImage tile = new BufferedImage(step, step, BufferedImage.TYPE_INT_ARGB);
    Graphics2D g = tile.createGraphics();
    smooth(g);
    g.setColor(ground);
    g.fillRect(0, 0, step, step);
    g.setColor(line);
    g.setStroke(new BasicStroke(1f));
    for (int shift = -step; shift <= step; shift += step) {
      g.drawLine(shift, step, shift + step, 0);
      if (crossed) {
        g.drawLine(shift, 0, shift + step, step);
      }
    }
    g.dispose();
    return new TexturePaint(tile, new Rectangle2D.Double(0, 0, step, step));
  }
}
