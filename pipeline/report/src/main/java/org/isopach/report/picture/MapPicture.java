package org.isopach.report.picture;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;

/** The map of a thickness sheet without what stands beside it, for pages that set it in text. */
public final class MapPicture {
  /** Side of the picture in pixels. */
  public static final int SIDE = 890;

  private static final int LEFT = 24;
  private static final int TOP = 90;
  private static final int COLOURS = 128;

  private MapPicture() {}

  /** Draws a map with its grid, numbers, border and directions on white. */
  public static BufferedImage paint(ThicknessMap map, SectorTable table) {
    BufferedImage image = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    try {
      Ink.smooth(g);
      g.setColor(Color.WHITE);
      g.fillRect(0, 0, SIDE, SIDE);
      g.translate(-LEFT, -TOP);
      SheetPainter.map(g, ThicknessPicture.sheet(map, table, ""));
    } finally {
      g.dispose();
    }
    return image;
  }

  /** Returns what the colours of a layer's maps stand for. */
  public static MapLegend legend(Layer layer) {
    ValueScale scale = ValueScale.ofThickness(layer);
    List<Integer> colours = new ArrayList<>();
    for (int i = 0; i < COLOURS; i++) {
      colours.add(ColourRamp.THICKNESS.rgb((i + 0.5) / COLOURS));
    }
    return new MapLegend(
        scale.lowMicrometres(),
        scale.highMicrometres(),
        scale.ticks(),
        scale.lineMicrometres(),
        scale.indexMicrometres(),
        colours);
  }

  /** Returns a layer in words, such as "inner limiting membrane to Bruch's membrane". */
  public static String words(Layer layer) {
    return PictureWords.layerWords(layer);
  }
}
