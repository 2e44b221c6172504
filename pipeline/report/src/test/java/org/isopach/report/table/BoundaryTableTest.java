package org.isopach.report.table;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.dicom.file.FileDigest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BoundaryTableTest {
  @TempDir Path folder;

  @Test
  void writesByFrameThenAscanThenBoundaryAndLeavesMissingDepthsEmpty() throws IOException {
    BoundarySet set =
        new BoundarySet(
            Map.of(
                Boundary.BM,
                surface(2, 2, new float[] {90, Float.NaN, 92.0625f, 93}, 0.5f),
                Boundary.ILM,
                surface(2, 2, new float[] {10.5f, 11, 12.0011f, 13}, 1f)));
    Path file = folder.resolve("1.2.3.csv");

    String digest = BoundaryTable.write(file, set);

    assertEquals(
        """
        frame,ascan,boundary,depth_px,confidence,absence
        0,0,ILM,10.500,1.00,
        0,0,BM,90.000,0.50,
        0,1,ILM,11.000,1.00,
        0,1,BM,,0.00,unstated
        1,0,ILM,12.001,1.00,
        1,0,BM,92.062,0.50,
        1,1,ILM,13.000,1.00,
        1,1,BM,93.000,0.50,
        """,
        Files.readString(file));
    assertEquals(FileDigest.sha256(file), digest);
  }

  /** How long it takes is for the bench to say. */
  @Test
  void writesEveryRowOfAVolume() throws IOException {
    int frames = 49;
    int ascans = 512;
    float[] depth = new float[frames * ascans];
    for (int i = 0; i < depth.length; i++) {
      depth[i] = 100 + (i % 977) * 0.1f;
    }
    BoundarySurface surface = surface(frames, ascans, depth, 0.87f);
    BoundarySet set =
        new BoundarySet(
            Map.of(
                Boundary.ILM,
                surface,
                Boundary.EZ,
                surface,
                Boundary.RPE,
                surface,
                Boundary.BM,
                surface));
    Path file = folder.resolve("volume.csv");
    BoundaryTable.write(file, set);

    assertEquals(1 + 4L * frames * ascans, Files.readAllLines(file).size());
  }

  private static BoundarySurface surface(int frames, int ascans, float[] depth, float confidence) {
    float[] all = new float[depth.length];
    Arrays.fill(all, confidence);
    return new BoundarySurface(frames, ascans, depth, all);
  }
}
