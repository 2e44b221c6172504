package org.isopach.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OverlayPictureTest {
  private static final ScanSize SIZE = new ScanSize(5, 384, 420);
  private static final String SOFTWARE = "Isopach test";

  @TempDir Path folder;

  @Test
  void writesAPngThatReadsBackAndIsTheSameTwice() throws Exception {
    FrameScene scene = scene(Laterality.RIGHT);
    Path file = folder.resolve("overlays/1/2.png");
    Path again = folder.resolve("overlays/1/again.png");
    String digest = OverlayPicture.write(file, scene, SOFTWARE);
    assertEquals(digest, OverlayPicture.write(again, scene, SOFTWARE));
    BufferedImage image = ImageIO.read(file.toFile());
    assertEquals(1340, image.getWidth());
    keep(file);
  }

  @Test
  void linesLieOnTheirDepths() throws Exception {
    FrameScene scene = scene(Laterality.RIGHT);
    BufferedImage image = OverlayPicture.paint(scene, SOFTWARE);
    FrameWindow window = FrameWindow.of(scene);
    int found = 0;
    for (int a = 20; a < SIZE.ascans(); a += 20) {
      if (a >= 140 && a <= 240) {
        continue; // a region's outline lies over the line
      }
      double depth = scene.boundaries().surface(Boundary.ILM).orElseThrow().depthPx(2, a);
      Color here = new Color(image.getRGB((int) window.x(a), (int) Math.floor(window.y(depth))));
      found += here.getRed() > here.getBlue() + 30 ? 1 : 0;
    }
    assertEquals(13, found, "straw is yellower than any grey");
  }

  @Test
  void regionsAreOutlinedWhereTheyLie() throws Exception {
    FrameScene scene = scene(Laterality.RIGHT);
    BufferedImage image = OverlayPicture.paint(scene, SOFTWARE);
    FrameWindow window = FrameWindow.of(scene);
    int x = (int) Math.round(window.edgeX(190));
    int y = (int) Math.round(window.edgeY(150));
    int bright = 0;
    for (int dy = -2; dy <= 2; dy++) {
      bright = Math.max(bright, new Color(image.getRGB(x, y + dy)).getRed());
    }
    assertTrue(bright > 240, "the solid outline of intraretinal fluid is white, was " + bright);
  }

  @Test
  void namesTheSidesByTheEye() {
    assertEquals("nasal", FrameSides.end(scene(Laterality.RIGHT), true));
    assertEquals("temporal", FrameSides.end(scene(Laterality.RIGHT), false));
    assertEquals("temporal", FrameSides.end(scene(Laterality.LEFT), true));
    assertEquals("nasal", FrameSides.end(scene(Laterality.LEFT), false));
  }

  @Test
  void withoutPlaceItSaysSoAndStillDraws() throws Exception {
    FrameScene whole = scene(Laterality.RIGHT);
    FrameScene lost =
        new FrameScene(
            whole.scan(),
            2,
            "middle of the scan",
            Optional.empty(),
            Optional.empty(),
            whole.boundaries(),
            RegionLabels.none(SIZE));
    assertTrue(FrameWindow.of(lost).pixelsPerMm().isEmpty());
    assertEquals("first A-scan", FrameSides.end(lost, false));
    Path file = folder.resolve("lost.png");
    OverlayPicture.write(file, lost, SOFTWARE);
    assertTrue(Files.size(file) > 0);
  }

  /** Neighbours must be told apart without colour. */
  @Test
  void neighbouringLinesDifferInDashesAndColour() {
    Boundary[] order = Boundary.values();
    for (int i = 1; i < order.length; i++) {
      BoundaryInk one = BoundaryInk.of(order[i - 1]);
      BoundaryInk next = BoundaryInk.of(order[i]);
      assertNotEquals(one.colour(), next.colour(), order[i].code());
      assertNotEquals(one.stroke(), next.stroke(), order[i].code());
    }
    List<RegionInk> inks = EnumSet.allOf(RegionKind.class).stream().map(RegionInk::of).toList();
    assertEquals(4, inks.stream().map(RegionInk::letter).distinct().count());
    assertEquals(4, inks.stream().map(RegionInk::stroke).distinct().count());
  }

  @Test
  void aLabelImageHoldsTheLabelsThemselves() throws IOException {
    RegionLabels labels = labels();
    Path file = folder.resolve("regions/1/2.png");
    RegionImage.write(file, labels, 2);
    BufferedImage image = ImageIO.read(file.toFile());
    assertEquals(SIZE.ascans(), image.getWidth());
    assertEquals(SIZE.depths(), image.getHeight());
    assertEquals(8, image.getColorModel().getPixelSize());
    assertEquals(1, image.getRaster().getNumBands());
    byte[] expected = labels.frame(2);
    for (int i = 0; i < expected.length; i++) {
      assertEquals(expected[i], image.getRaster().getSample(i % 384, i / 384, 0));
    }
    assertFalse(labels.isEmpty());
  }

  private static FrameScene scene(Laterality laterality) {
    PhantomScan phantom =
        PhantomScan.of(PhantomParameters.meanEye(laterality), ScanPlan.raster(SIZE, 3.87, 6, 4, 0));
    OctScan scan = phantom.scan();
    Optional<ScanPath> path = scan.path();
    return new FrameScene(
        scan,
        2,
        "nearest to the centre of the grid",
        path,
        Optional.of(new Landmark(phantom.truth().fovea(), Landmark.Source.FOVEAL_PIT)),
        phantom.truth().boundaries(),
        labels());
  }

  private static RegionLabels labels() {
    RegionLabels.Builder builder = RegionLabels.builder(SIZE, EnumSet.allOf(RegionKind.class));
    byte[] frame = new byte[SIZE.framePixels()];
    for (int d = 150; d < 190; d++) {
      for (int a = 150; a < 230; a++) {
        frame[d * 384 + a] = 1;
      }
    }
    disc(frame, 250, 185, 90, 14, RegionKind.SUBRETINAL_FLUID);
    disc(frame, 300, 160, 25, 12, RegionKind.RPE_ELEVATION);
    disc(frame, 110, 180, 20, 9, RegionKind.HYPERREFLECTIVE_MATERIAL);
    builder.set(2, frame);
    return builder.build();
  }

  private static void disc(byte[] frame, int a0, int d0, int ra, int rd, RegionKind kind) {
    for (int d = d0 - rd; d <= d0 + rd; d++) {
      for (int a = a0 - ra; a <= a0 + ra; a++) {
        double u = (a - a0) / (double) ra;
        double v = (d - d0) / (double) rd;
        if (u * u + v * v <= 1 && frame[d * 384 + a] == 0) {
          frame[d * 384 + a] = kind.label();
        }
      }
    }
  }

  /** Leaves a copy where a person can look at it. */
  private static void keep(Path file) throws IOException {
    Path target = Path.of("target", "pictures", "overlay.png");
    Files.createDirectories(target.getParent());
    Files.copy(file, target, StandardCopyOption.REPLACE_EXISTING);
  }
}
