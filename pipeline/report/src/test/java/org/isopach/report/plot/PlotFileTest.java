package org.isopach.report.plot;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.isopach.report.Software;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.DefaultXYDataset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;

class PlotFileTest {
  private static final int WIDTH = 420;
  private static final int HEIGHT = 300;

  @TempDir private Path folder;

  @Test
  void writesWhatIsShownAndItsCautionsAsLetters() throws Exception {
    Path target = folder.resolve("deep/plot.svg");
    PlotFile.svg(target, chart(PlotInk.BLUE), WIDTH, HEIGHT);

    DocumentBuilderFactory parsers = DocumentBuilderFactory.newInstance();
    parsers.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    Document svg = parsers.newDocumentBuilder().parse(target.toFile());
    assertEquals("svg", svg.getDocumentElement().getTagName());
    assertEquals("420", svg.getDocumentElement().getAttribute("width"));
    String words = svg.getDocumentElement().getTextContent();
    for (String wanted :
        List.of(
            "Thickness of an invented eye",
            "days",
            "thickness, µm",
            "One note.",
            "Research use. Not a diagnosis. The clinician decides; local rules apply.",
            "Isopach 9.9")) {
      assertTrue(words.contains(wanted), wanted);
    }
  }

  @Test
  void writesSharpPicturesWithTheSeriesInItsInk() throws IOException {
    Path target = folder.resolve("plot.png");
    PlotFile.png(target, chart(PlotInk.VERMILION), WIDTH, HEIGHT);

    BufferedImage image = ImageIO.read(target.toFile());
    assertEquals(2 * WIDTH, image.getWidth());
    assertEquals(2 * HEIGHT, image.getHeight());
    assertTrue(count(image, PlotInk.VERMILION.colour().getRGB()) > 200);
    assertEquals(0, count(image, PlotInk.BLUE.colour().getRGB()));
    assertEquals(0xFFFFFFFF, image.getRGB(2, 2));
  }

  @Test
  void writesTheSameBytesAgain() throws IOException {
    for (String name : List.of("one", "two")) {
      PlotFile.svg(folder.resolve(name + ".svg"), chart(PlotInk.GREEN), WIDTH, HEIGHT);
      PlotFile.png(folder.resolve(name + ".png"), chart(PlotInk.GREEN), WIDTH, HEIGHT);
    }

    for (String end : List.of(".svg", ".png")) {
      assertArrayEquals(
          Files.readAllBytes(folder.resolve("one" + end)),
          Files.readAllBytes(folder.resolve("two" + end)));
    }
    assertEquals(4, folder.toFile().list().length);
  }

  @Test
  void laysSeveralChartsOutInRows() throws IOException {
    Path target = folder.resolve("sheet.png");
    PlotFile.png(
        target,
        List.of(chart(PlotInk.BLUE), chart(PlotInk.GREEN), chart(PlotInk.VERMILION)),
        2,
        WIDTH,
        HEIGHT);

    BufferedImage image = ImageIO.read(target.toFile());
    assertEquals(4 * WIDTH, image.getWidth());
    assertEquals(4 * HEIGHT, image.getHeight());
    BufferedImage lower = image.getSubimage(0, 2 * HEIGHT, 2 * WIDTH, 2 * HEIGHT);
    assertTrue(count(lower, PlotInk.VERMILION.colour().getRGB()) > 200);
    assertEquals(0, count(lower, PlotInk.BLUE.colour().getRGB()));
  }

  private static JFreeChart chart(PlotInk ink) {
    DefaultXYDataset data = new DefaultXYDataset();
    data.addSeries("centre", new double[][] {{0, 30, 60}, {271, 265, 268}});
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer();
    HousePlot.ink(renderer, 0, ink, true, true);
    XYPlot plot =
        new XYPlot(data, HousePlot.axis("days"), HousePlot.axis("thickness, µm"), renderer);
    return HousePlot.chart(
        "Thickness of an invented eye", plot, List.of("One note."), new Software("Isopach", "9.9"));
  }

  private static int count(BufferedImage image, int rgb) {
    int count = 0;
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        count += image.getRGB(x, y) == rgb ? 1 : 0;
      }
    }
    return count;
  }
}
