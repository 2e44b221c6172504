package org.isopach.report.picture;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.GreyRange;

/** Draws a frame's grey values: the object's lowest black, its highest white, linear between. */
final class FrameGrey {
  private FrameGrey() {}

  static void paint(Graphics2D g, FrameScene scene, FrameWindow window) throws FrameReadException {
    Rectangle2D box = window.bounds();
    g.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    g.drawImage(
        image(scene),
        (int) box.getX(),
        (int) box.getY(),
        (int) Math.round(box.getWidth()),
        (int) Math.round(box.getHeight()),
        null);
  }

  private static BufferedImage image(FrameScene scene) throws FrameReadException {
    int ascans = scene.scan().size().ascans();
    int depths = scene.scan().size().depths();
    float[] values = new float[ascans * depths];
    scene.scan().frames().read(scene.frame(), values);
    GreyRange range = scene.scan().grey();
    BufferedImage image = new BufferedImage(ascans, depths, BufferedImage.TYPE_INT_RGB);
    for (int i = 0; i < values.length; i++) {
      double share = (values[i] - range.low()) / (range.high() - range.low());
      int grey = (int) Math.round(255 * Math.max(0, Math.min(1, share)));
      image.setRGB(i % ascans, i / ascans, grey << 16 | grey << 8 | grey);
    }
    return image;
  }
}
