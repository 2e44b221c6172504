package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.report.Cautions;

/**
 * A frame of a scan as it is, with the boundaries and regions found in it drawn over it, a key,
 * scale bars and where the frame lies.
 */
public final class OverlayPicture {
  private static final int WIDTH = 1340;
  private static final int LEAST_HEIGHT = 800;
  private static final int MARGIN = 40;
  private static final int COLUMN_LEFT = 1074;

  private OverlayPicture() {}

  /**
   * Draws a frame and writes it as PNG.
   *
   * @param software name and version of the program, for the foot of the sheet
   * @return the SHA-256 digest of the file
   * @throws FrameReadException when the frame cannot be decoded; nothing is written then
   */
  public static String write(Path target, FrameScene scene, String software)
      throws IOException, FrameReadException {
    return PngFile.write(target, paint(scene, software));
  }

  static BufferedImage paint(FrameScene scene, String software) throws FrameReadException {
    FrameWindow window = FrameWindow.of(scene);
    int height = (int) Math.max(LEAST_HEIGHT, window.bounds().getMaxY() + 116);
    BufferedImage image = new BufferedImage(WIDTH, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    try {
      Ink.smooth(g);
      g.setColor(Ink.PAPER);
      g.fillRect(0, 0, WIDTH, height);
      heading(g, scene);
      frame(g, scene, window);
      new OverlayKeyPainter(g, COLUMN_LEFT, WIDTH - MARGIN - COLUMN_LEFT).paint(scene, window);
      foot(g, scene, software, height - 62);
    } finally {
      g.dispose();
    }
    return image;
  }

  private static void heading(Graphics2D g, FrameScene scene) {
    g.setColor(Ink.DARK);
    g.setFont(Ink.bold(27));
    g.drawString("Boundaries and regions found", MARGIN, 50);
    String eye =
        scene
            .scan()
            .laterality()
            .map(l -> l.word().toUpperCase(Locale.ROOT) + " EYE")
            .orElse("EYE NOT STATED");
    g.drawString(eye, COLUMN_LEFT, 50);
    g.setFont(Ink.plain(15));
    g.setColor(Ink.SOFT);
    g.drawString(
        "Frame "
            + scene.frame()
            + " (counted from 0) of "
            + scene.scan().size().frames()
            + ": "
            + scene.why(),
        MARGIN,
        76);
  }

  private static void frame(Graphics2D g, FrameScene scene, FrameWindow window)
      throws FrameReadException {
    FrameLinePainter lines = new FrameLinePainter(g, scene, window);
    FrameGrey.paint(g, scene, window);
    Shape before = g.getClip();
    g.clip(window.bounds());
    lines.paintBoundaries();
    new FrameRegionPainter(g, scene, window).paint();
    g.setClip(before);
    g.setColor(Ink.DARK);
    g.setStroke(new BasicStroke(1f));
    g.draw(window.bounds());
    lines.paintNames();
    FrameSides.paint(g, scene, window);
  }

  private static void foot(Graphics2D g, FrameScene scene, String software, int y) {
    g.setColor(Ink.DARK);
    g.setStroke(new BasicStroke(1f));
    g.draw(new Line2D.Double(MARGIN, y - 14.0, WIDTH - (double) MARGIN, y - 14.0));
    g.setFont(Ink.bold(14));
    g.drawString(Cautions.LINE, MARGIN, y + 8);
    g.setFont(Ink.plain(11.5f));
    g.setColor(Ink.SOFT);
    g.drawString("Object " + scene.scan().identity().sopUid(), MARGIN, y + 28);
    g.drawString(
        software
            + "; grey values as in the object; lines as found, with gaps where a boundary has no"
            + " depth; regions are candidates for review",
        MARGIN,
        y + 44);
  }
}
