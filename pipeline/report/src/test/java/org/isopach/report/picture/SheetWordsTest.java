package org.isopach.report.picture;

import static org.isopach.report.SampleMaps.map;
import static org.isopach.report.SampleMaps.table;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.Test;

/** Words that must stand on a sheet, found by the room their ink takes. */
class SheetWordsTest {
  private static final int WORD_OFFSET = 40;

  @Test
  void theCautionsStandAtTheFoot() {
    BufferedImage image = paint(Laterality.RIGHT);
    Rectangle ink = ink(image, new Rectangle(0, 986, SheetPainter.WIDTH, 14));
    assertEquals(width(image, Ink.bold(14), Cautions.LINE), ink.width, 4);
  }

  @Test
  void temporalIsWrittenLeftOfARightEyeAndNasalLeftOfALeftEye() {
    BufferedImage right = paint(Laterality.RIGHT);
    BufferedImage left = paint(Laterality.LEFT);
    Rectangle leftOfRightEye = besideTheMap(right, true);
    Rectangle rightOfRightEye = besideTheMap(right, false);
    assertTrue(leftOfRightEye.height > rightOfRightEye.height + 10, "temporal is the longer word");
    assertEquals(rightOfRightEye.height, besideTheMap(left, true).height, 2);
    assertEquals(leftOfRightEye.height, besideTheMap(left, false).height, 2);
  }

  private static BufferedImage paint(Laterality laterality) {
    ThicknessMap map = map(laterality, (x, y) -> 300);
    return SheetPainter.paint(ThicknessPicture.sheet(map, table(map), "Isopach test"));
  }

  private static Rectangle besideTheMap(BufferedImage image, boolean left) {
    Rectangle box = SheetPainter.MAP.bounds();
    int x = left ? box.x - WORD_OFFSET : (int) box.getMaxX() + WORD_OFFSET;
    return ink(image, new Rectangle(x - 6, (int) box.getCenterY() - 60, 12, 120));
  }

  private static int width(BufferedImage image, Font font, String text) {
    Graphics2D g = image.createGraphics();
    Ink.smooth(g);
    FontMetrics metrics = g.getFontMetrics(font);
    g.dispose();
    return metrics.stringWidth(text);
  }

  /** Returns the smallest rectangle that holds everything darker than the paper in a window. */
  private static Rectangle ink(BufferedImage image, Rectangle window) {
    Rectangle found = new Rectangle(-1, -1);
    for (int y = window.y; y < window.y + window.height; y++) {
      for (int x = window.x; x < window.x + window.width; x++) {
        if ((image.getRGB(x, y) & 0xFF) < 150) {
          found.add(new Rectangle(x, y, 1, 1));
        }
      }
    }
    return found;
  }
}
