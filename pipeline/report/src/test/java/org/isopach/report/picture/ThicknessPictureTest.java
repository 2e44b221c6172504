package org.isopach.report.picture;

import static org.isopach.report.SampleMaps.map;
import static org.isopach.report.SampleMaps.table;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.isopach.analysis.colour.ColourScale;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.dicom.file.FileDigest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ThicknessPictureTest {
  @TempDir Path folder;

  @Test
  void paintsEachPlaceWithTheColourOfItsThickness() {
    ThicknessMap map = map(Laterality.RIGHT, (x, y) -> 300 + 40 * x);
    BufferedImage image = SheetPainter.paint(sheet(map));

    // Places clear of lines, numbers and contours: 305 +- 4 um lies between two lines.
    for (double yMm : new double[] {-0.75, 0.35, 1.3}) {
      int expected = ColourScale.sequential().rgb((305.0 - 100) / 400);
      assertClose(expected, pixel(image, 0.125, yMm), "at y " + yMm);
    }
  }

  @Test
  void hatchesWhereThereIsNoValue() {
    ThicknessMap map = map(Laterality.RIGHT, (x, y) -> y > 1 ? Double.NaN : 300);
    BufferedImage image = SheetPainter.paint(sheet(map));

    int colour = ColourScale.sequential().rgb(0.5);
    for (int i = 0; i < 20; i++) {
      assertNotEquals(colour, pixel(image, 2.4 + 0.01 * i, 2.7) & 0xFFFFFF);
    }
  }

  @Test
  void refusesSectorsInWordsAndNumbers() {
    Sheet sheet = sheet(map(Laterality.LEFT, (x, y) -> y > 1 ? Double.NaN : 300));

    List<String> refused =
        sheet.sectors().stream().filter(SheetSector::refused).map(SheetSector::name).toList();
    assertEquals(
        List.of("inner-inferior", "outer-nasal", "outer-inferior", "outer-temporal"), refused);
    assertEquals(refused.size(), sheet.notes().size());
    assertTrue(sheet.notes().get(0).startsWith("inner-inferior refused: "), sheet.notes().get(0));
    assertTrue(
        sheet
            .facts()
            .contains(new Sheet.Fact("volume", "not measurable: the grid is not complete")));
  }

  @Test
  void putsNasalOnTheSideOfTheNose() {
    SheetSector right = nasal(Laterality.RIGHT);
    SheetSector left = nasal(Laterality.LEFT);

    assertTrue(right.labelXMm() > 0.9, "right eye: nasal is to the right");
    assertTrue(left.labelXMm() < -0.9, "left eye: nasal is to the left");
    assertTrue(right.contains(1, 0) && !right.contains(-1, 0) && !right.contains(0, 1));
    assertTrue(left.contains(-1, 0) && !left.contains(1, 0) && !left.contains(0, -1));
  }

  @Test
  void writesAPngThatReadsBack() throws IOException {
    ThicknessMap map =
        map(Laterality.RIGHT, (x, y) -> 340 - 90 * Math.exp(-(x * x + y * y) / 0.5) + 4 * x);
    Path file = folder.resolve("maps/a.png");

    String digest = ThicknessPicture.write(file, map, table(map), "Isopach test");

    assertEquals(FileDigest.sha256(file), digest);
    BufferedImage image = ImageIO.read(file.toFile());
    assertEquals(SheetPainter.WIDTH, image.getWidth());
    assertEquals(SheetPainter.HEIGHT, image.getHeight());
  }

  private static SheetSector nasal(Laterality laterality) {
    return sheet(map(laterality, (x, y) -> 300)).sectors().stream()
        .filter(sector -> sector.name().equals("inner-nasal"))
        .findFirst()
        .orElseThrow();
  }

  private static int pixel(BufferedImage image, double xMm, double yMm) {
    MapWindow window = SheetPainter.MAP;
    return image.getRGB((int) window.xPx(xMm), (int) window.yPx(yMm));
  }

  private static void assertClose(int expected, int actual, String where) {
    for (int shift = 0; shift <= 16; shift += 8) {
      assertEquals(expected >> shift & 0xFF, actual >> shift & 0xFF, 3, where);
    }
  }

  private static Sheet sheet(ThicknessMap map) {
    return ThicknessPicture.sheet(map, table(map), "Isopach test");
  }
}
