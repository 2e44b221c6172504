package org.isopach.segment.tissue;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;

/** What must hold of any model in that place, however well it is trained. */
class TissueModelTest {
  /** Every tissue's probability is rounded to 1/255, by half a step at most. */
  private static final double ROUNDING = Tissue.values().length * 0.5 / 255;

  private static TissuePicture picture(int columns, int rows, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    float[] pixels = new float[columns * rows];
    for (int i = 0; i < pixels.length; i++) {
      double band = Math.sin(6.0 * Math.floorDiv(i, columns) / rows) + 1;
      pixels[i] = (float) (60 * band + 40 * random.nextDouble());
    }
    return TissuePicture.of(pixels, columns, rows, new TissueGrid(1, 1, columns, rows));
  }

  @Test
  void probabilitiesOfACellSumToOneAtAnySize() {
    int[][] sizes = {{1, 1}, {2, 3}, {5, 40}, {7, 13}, {33, 17}, {64, 32}, {101, 75}};
    for (int[] size : sizes) {
      TissueMap map = TissueModel.shipped().look(picture(size[0], size[1], 7));
      assertEquals((size[0] + 1) / 2, map.columns());
      assertEquals(size[1], map.rows());
      for (int c = 0; c < map.columns(); c++) {
        for (int r = 0; r < map.rows(); r++) {
          assertEquals(1, sum(map, r, c), ROUNDING, "row " + r + ", column " + c);
        }
      }
    }
  }

  private static double sum(TissueMap map, int row, int column) {
    double sum = 0;
    for (Tissue tissue : Tissue.values()) {
      sum += map.probability(tissue, row, column);
    }
    return sum;
  }

  @Test
  void severalThreadsGiveTheSameBytes() throws Exception {
    int pictures = 6;
    List<TissueMap> alone = new ArrayList<>();
    for (int i = 0; i < pictures; i++) {
      alone.add(TissueModel.shipped().look(picture(60, 50, i)));
    }
    ExecutorService pool = Executors.newFixedThreadPool(3);
    try {
      List<Future<TissueMap>> together = new ArrayList<>();
      for (int i = 0; i < pictures; i++) {
        TissuePicture picture = picture(60, 50, i);
        together.add(pool.submit(() -> TissueModel.shipped().look(picture)));
      }
      for (int i = 0; i < pictures; i++) {
        assertSame(alone.get(i), together.get(i).get());
      }
    } finally {
      pool.shutdownNow();
    }
  }

  private static void assertSame(TissueMap expected, TissueMap actual) {
    for (Tissue tissue : Tissue.values()) {
      for (int c = 0; c < expected.columns(); c++) {
        for (int r = 0; r < expected.rows(); r++) {
          assertEquals(expected.probability(tissue, r, c), actual.probability(tissue, r, c), 0f);
        }
      }
    }
  }

  @Test
  void everyTissueHasAnOutputOfItsOwn() {
    for (int i = 0; i < Tissue.values().length; i++) {
      assertEquals(i, List.of(Tissue.values()).get(i).index());
    }
  }
}
