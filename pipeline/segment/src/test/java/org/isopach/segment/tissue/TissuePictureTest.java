package org.isopach.segment.tissue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.SplittableRandom;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.scan.ScanSize;
import org.junit.jupiter.api.Test;

/** Block means, the scale by quantiles, and pictures with nothing to scale by. */
class TissuePictureTest {
  private static final TissueGrid GRID = new TissueGrid(3, 2, 60, 50);
  private static final int ASCANS = 181;
  private static final int DEPTHS = 101;

  /** 30 % of the cells at 10, 60 % at 60, 8 % at 110, the rest far below and above. */
  private static float grey(int cell) {
    int share = (int) (Math.floorMod(cell * 2654435761L, 4294967296L) * 1000 / 4294967296L);
    if (share < 5) {
      return -500;
    }
    if (share < 10) {
      return 900;
    }
    return share < 300 ? 10 : share < 900 ? 60 : 110;
  }

  private static float[] frame(double gain, double offset) {
    float[] pixels = new float[ASCANS * DEPTHS];
    for (int r = 0; r < DEPTHS; r++) {
      for (int a = 0; a < ASCANS; a++) {
        int cell = r / 2 * 1000 + a / 3;
        // The six pixels of a cell differ; their mean is the cell's grey.
        double wave = 4 * (a % 3 - 1) + 3 * (r % 2 == 0 ? 1 : -1);
        pixels[r * ASCANS + a] = (float) (gain * (grey(cell) + wave) + offset);
      }
    }
    return pixels;
  }

  private static TissuePicture picture(double gain, double offset) {
    return TissuePicture.of(frame(gain, offset), ASCANS, DEPTHS, GRID);
  }

  @Test
  void darkIsNoughtAndBrightIsOneAndTheRestIsCut() {
    TissuePicture picture = picture(1, 0);
    for (int r = 0; r < GRID.rows(); r++) {
      for (int c = 0; c < GRID.columns(); c++) {
        float grey = grey(r * 1000 + c);
        double expected = Math.min(1.5, Math.max(-0.3, (grey - 10) / 100));
        assertEquals(expected, picture.value(r, c), 1e-5);
      }
    }
  }

  @Test
  void gainAndOffsetDoNotMatter() {
    TissuePicture plain = picture(1, 0);
    TissuePicture other = picture(37.5, 1000);
    for (int r = 0; r < GRID.rows(); r++) {
      for (int c = 0; c < GRID.columns(); c++) {
        assertEquals(plain.value(r, c), other.value(r, c), 1e-4);
      }
    }
  }

  @Test
  void pixelsAreNotChanged() {
    float[] pixels = frame(1, 0);
    float[] before = pixels.clone();
    TissuePicture.of(pixels, ASCANS, DEPTHS, GRID);
    org.junit.jupiter.api.Assertions.assertArrayEquals(before, pixels);
  }

  @Test
  void aConstantFrameIsDark() {
    float[] pixels = new float[ASCANS * DEPTHS];
    java.util.Arrays.fill(pixels, 77);
    TissuePicture picture = TissuePicture.of(pixels, ASCANS, DEPTHS, GRID);
    for (int r = 0; r < GRID.rows(); r++) {
      for (int c = 0; c < GRID.columns(); c++) {
        assertEquals(0, picture.value(r, c), 0);
      }
    }
  }

  @Test
  void anyShapeGivesFiniteValues() {
    SplittableRandom random = new SplittableRandom(4);
    for (int ascans : new int[] {1, 2, 5, 40}) {
      for (int depths : new int[] {1, 2, 9, 60}) {
        for (double spacing : new double[] {0.001, 0.5, 4, 400}) {
          TissueGrid grid =
              TissueGrid.of(
                  new ScanSize(1, ascans, depths),
                  AxialScale.ofMicrometresPerPixel(spacing),
                  spacing);
          float[] pixels = new float[ascans * depths];
          for (int i = 0; i < pixels.length; i++) {
            pixels[i] = random.nextInt(256);
          }
          TissuePicture picture = TissuePicture.of(pixels, ascans, depths, grid);
          for (int i = 0; i < grid.cells(); i++) {
            float value = picture.value(i / grid.columns(), i % grid.columns());
            assertFalse(Float.isNaN(value) || value < -0.3f || value > 1.5f, grid.toString());
          }
        }
      }
    }
  }
}
