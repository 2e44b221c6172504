package org.isopach.report.plot;

import java.awt.Color;
import java.awt.Dimension;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGraphics2D;
import org.isopach.report.file.CompleteFile;
import org.isopach.report.picture.PngFile;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.text.TextUtils;
import org.w3c.dom.Document;

/**
 * Writes charts as files that appear whole. The same charts with the same letters on the machine
 * give the same bytes.
 */
public final class PlotFile {
  /** Pixels of a PNG for each unit of the drawing, for sharp letters. */
  private static final int SHARPNESS = 2;

  private static final String SVG = "http://www.w3.org/2000/svg";

  static {
    // Turned letters are letters too; the library would make outlines of them.
    TextUtils.setUseDrawRotatedStringWorkaround(false);
  }

  private PlotFile() {}

  /**
   * Makes or replaces a PNG.
   *
   * @param width of the drawing; the picture has twice as many pixels
   * @param height likewise
   * @return the SHA-256 digest of the bytes
   * @throws IOException when the disk refuses; the target is then as it was before
   */
  public static String png(Path target, JFreeChart chart, int width, int height)
      throws IOException {
    return png(target, List.of(chart), 1, width, height);
  }

  /**
   * Makes or replaces a PNG of several charts side by side, row by row.
   *
   * @param across charts in a row
   * @param width of each chart; the picture has twice as many pixels
   * @param height likewise
   */
  public static String png(Path target, List<JFreeChart> charts, int across, int width, int height)
      throws IOException {
    Dimension size = size(charts, across, width, height);
    BufferedImage image =
        new BufferedImage(
            SHARPNESS * size.width, SHARPNESS * size.height, BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = image.createGraphics();
    try {
      graphics.setColor(Color.WHITE);
      graphics.fillRect(0, 0, image.getWidth(), image.getHeight());
      graphics.scale(SHARPNESS, SHARPNESS);
      graphics.setRenderingHint(
          RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
      draw(graphics, charts, across, width, height);
    } finally {
      graphics.dispose();
    }
    return PngFile.write(target, image);
  }

  /**
   * Makes or replaces an SVG; letters stay letters.
   *
   * @param width of the drawing, px
   * @param height likewise
   * @return the SHA-256 digest of the bytes
   * @throws IOException when the disk refuses; the target is then as it was before
   */
  public static String svg(Path target, JFreeChart chart, int width, int height)
      throws IOException {
    SVGGraphics2D graphics = new SVGGraphics2D(document());
    graphics.setSVGCanvasSize(new Dimension(width, height));
    draw(graphics, List.of(chart), 1, width, height);
    return CompleteFile.write(
        target,
        out -> {
          Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
          graphics.stream(writer, true);
          writer.flush();
        });
  }

  private static void draw(
      Graphics2D graphics, List<JFreeChart> charts, int across, int width, int height) {
    AffineTransform start = graphics.getTransform();
    for (int i = 0; i < charts.size(); i++) {
      graphics.translate((i % across) * width, (i / across) * height);
      charts.get(i).draw(graphics, new Rectangle2D.Double(0, 0, width, height));
      graphics.setTransform(start);
    }
  }

  private static Dimension size(List<JFreeChart> charts, int across, int width, int height) {
    return new Dimension(
        width * Math.min(across, charts.size()), height * ((charts.size() + across - 1) / across));
  }

  private static Document document() {
    try {
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .getDOMImplementation()
          .createDocument(SVG, "svg", null);
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException("this Java has no XML", e);
    }
  }
}
