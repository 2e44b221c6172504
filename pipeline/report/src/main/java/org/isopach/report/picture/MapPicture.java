package org.isopach.report.picture;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.layer.Layer;

/** The map of a thickness sheet without what stands beside it, for pages that set it in text. */
public final class MapPicture {
  /** Side of the picture in pixels. */
  public static final int SIDE = 890;

  private static final int LEFT = 24;
  private static final int TOP = 90;
  private static final int COLOUR = 0xFFFFFF;
  private static final int WHITE = COLOUR;
  private static final int COLOURS = 128;

  private MapPicture() {}

  /**
   * Returns the map of a sheet with its grid, numbers, border and directions, on white paper.
   *
   * @param sheet as {@link ThicknessPicture#paint} drew it
   */
  public static BufferedImage of(BufferedImage sheet) {
    BufferedImage image = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
    int[] line = new int[SIDE];
    int paper = Ink.PAPER.getRGB() & COLOUR;
    for (int row = 0; row < SIDE; row++) {
      Pixels.read(sheet, LEFT, TOP + row, line);
      for (int i = 0; i < SIDE; i++) {
        line[i] = (line[i] & COLOUR) == paper ? WHITE : line[i];
      }
      Pixels.set(image, 0, row, line);
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
