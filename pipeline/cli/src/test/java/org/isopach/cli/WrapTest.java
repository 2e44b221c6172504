package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WrapTest {
  private static final String GEOMETRY =
      """
      {
        "patientId": "TSEU-7",
        "laterality": "L",
        "acquired": "2026-02-03T10:05:00",
        "axialMicrometresPerPixel": 3.87,
        "ascanSpacingMm": 0.0503937007874016,
        "frameSpacingMm": 0.355555555555556
      }
      """;

  @TempDir Path folder;

  @Test
  void picturesGoThroughTheWholeChainAndGiveTheObjectsNumbers() throws Exception {
    ScanPlan plan = ScanPlan.raster(new ScanSize(19, 128, 496), 3.87, 6.4, 6.4, 0);
    PhantomScan left = new PhantomStudy(plan).scans().get(1);
    writeFrames(left.scan(), folder.resolve("frames"));
    Files.writeString(folder.resolve("geometry.json"), GEOMETRY);
    Path object = folder.resolve("wrapped/scan.dcm");

    Call wrapped =
        Call.isopach(
            "wrap",
            folder.resolve("frames"),
            "--geometry",
            folder.resolve("geometry.json"),
            "--out",
            object);

    assertEquals(0, wrapped.code(), wrapped.err());
    List<List<String>> fromPictures = measure(object.getParent(), "pictures");
    new PhantomStudy(plan).write(folder.resolve("study"));
    List<List<String>> fromObjects = measure(folder.resolve("study"), "objects");
    String sop = left.scan().identity().sopUid();
    List<List<String>> expected =
        fromObjects.stream().filter(row -> row.get(3).equals(sop)).toList();
    assertEquals(10, fromPictures.size());
    for (int i = 0; i < 10; i++) {
      assertEquals(expected.get(i).get(8), fromPictures.get(i).get(8));
      assertEquals(
          Double.parseDouble(expected.get(i).get(9)),
          Double.parseDouble(fromPictures.get(i).get(9)),
          0.5);
    }
  }

  @Test
  void saysWhatIsWrongWithTheGeometryAndWritesNothing() throws IOException {
    Files.createDirectories(folder.resolve("frames"));
    ImageIO.write(
        new BufferedImage(8, 8, BufferedImage.TYPE_BYTE_GRAY),
        "png",
        folder.resolve("frames/1.png").toFile());
    Files.writeString(folder.resolve("geometry.json"), GEOMETRY.replace("\"L\"", "\"both\""));

    Call call =
        Call.isopach(
            "wrap",
            folder.resolve("frames"),
            "--geometry",
            folder.resolve("geometry.json"),
            "--out",
            folder.resolve("scan.dcm"));

    assertEquals(2, call.code());
    assertTrue(call.err().contains("laterality"), call.err());
    assertFalse(Files.exists(folder.resolve("scan.dcm")));
  }

  private List<List<String>> measure(Path input, String name) throws IOException {
    Path run = folder.resolve("run-" + name);
    Call call =
        Call.isopach(
            "measure",
            input,
            "--out",
            run,
            "--layer",
            "ILM-BM",
            "--skip",
            "pictures,objects,reports");
    assertEquals(0, call.code(), call.err());
    return Folders.rows(run.resolve("sectors.csv"));
  }

  private static void writeFrames(OctScan scan, Path into) throws IOException, FrameReadException {
    Files.createDirectories(into);
    int width = scan.size().ascans();
    int height = scan.size().depths();
    float[] grey = new float[width * height];
    for (int f = 0; f < scan.size().frames(); f++) {
      scan.frames().read(f, grey);
      BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_BYTE_GRAY);
      for (int i = 0; i < grey.length; i++) {
        image.getRaster().setSample(i % width, i / width, 0, Math.round(grey[i]));
      }
      ImageIO.write(image, "png", into.resolve(String.format("%03d.png", f)).toFile());
    }
  }
}
