package org.isopach.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.MapLattice;
import org.junit.jupiter.api.Test;

class SheetPainterTest {
  @Test
  void draws() throws IOException {
    MapLattice lattice = MapLattice.centred(3.0, 0.02);
    ValueField f =
        ValueField.of(
            lattice,
            (r, c) -> {
              double x = lattice.xMm(c);
              double y = lattice.yMm(r);
              if (y > 2.6 || Math.hypot(x + 1.8, y - 1.2) < 0.5) {
                return Float.NaN;
              }
              double rr = Math.hypot(x, y);
              return (float)
                  (270
                      + 80 * Math.exp(-Math.pow((rr - 1.2) / 0.7, 2))
                      - 60 * Math.exp(-rr * rr / 0.2)
                      + 12 * x
                      + 3 * Math.sin(17 * x) * Math.cos(23 * y));
            });
    List<SheetSector> sectors = new ArrayList<>();
    sectors.add(new SheetSector("centre", 0, 0.5, 0, 360, Optional.of("257"), "SD 18.2"));
    String[] names = {"superior", "nasal", "inferior", "temporal"};
    double[] start = {45, -45, 225, 135};
    for (int ring = 0; ring < 2; ring++) {
      for (int q = 0; q < 4; q++) {
        boolean refused = ring == 1 && q == 2;
        sectors.add(
            new SheetSector(
                (ring == 0 ? "inner-" : "outer-") + names[q],
                ring == 0 ? 0.5 : 1.5,
                ring == 0 ? 1.5 : 3,
                start[q],
                90,
                refused ? Optional.empty() : Optional.of(Integer.toString(300 + 7 * q)),
                refused ? "covered 61 %" : "SD 18.2  covered 100 %"));
      }
    }
    Sheet sheet =
        new Sheet(
            "Retinal thickness ILM\u2013BM",
            "Inner limiting membrane to Bruch\u2019s membrane, along the A-scan",
            Laterality.RIGHT,
            f,
            ValueScale.ofThickness(Layer.ILM_BM),
            s -> {
              int v = (int) (255 * s);
              return (v << 16) | ((40 + v * 180 / 255) << 8) | (160 - v / 2);
            },
            sectors,
            List.of(
                new Sheet.Fact("patient", "TERN-0001"),
                new Sheet.Fact("acquired", "2026-03-04 09:12"),
                new Sheet.Fact("grid", "etdrs-1-3-6"),
                new Sheet.Fact("centre", "foveal pit"),
                new Sheet.Fact("volume", "8.607 mm\u00B3 in 28.27 mm\u00B2")),
            List.of("outer-inferior: covered 61 %, at least 90 % needed"),
            List.of("a", "b"));
    BufferedImage image = SheetPainter.paint(sheet);
    ImageIO.write(image, "png", new File("target/sheet.png"));
    long start0 = System.nanoTime();
    for (int i = 0; i < 5; i++) {
      ImageIO.write(SheetPainter.paint(sheet), "png", new File("target/sheet.png"));
    }
    System.err.println("MS " + (System.nanoTime() - start0) / 5e6);
    assertEquals(SheetPainter.WIDTH, image.getWidth());
  }
}
