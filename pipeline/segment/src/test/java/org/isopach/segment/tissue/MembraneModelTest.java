package org.isopach.segment.tissue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class MembraneModelTest {
  /** More than the model is given at once: neither order nor neighbours may matter. */
  @Test
  void eachPictureIsJudgedByItself() {
    int count = 700;
    float[] patches = new float[count * MembraneModel.VALUES];
    Random random = new Random(5);
    for (int i = 0; i < patches.length; i++) {
      patches[i] = random.nextFloat();
    }
    float[] together = MembraneModel.shipped().openShares(patches);
    assertEquals(count, together.length);
    for (int i : new int[] {0, 1, 511, 512, 699}) {
      int from = i * MembraneModel.VALUES;
      float[] alone =
          MembraneModel.shipped()
              .openShares(Arrays.copyOfRange(patches, from, from + MembraneModel.VALUES));
      assertEquals(alone[0], together[i], 1e-5f);
      assertTrue(together[i] >= 0 && together[i] <= 1);
    }
  }

  @Test
  void noPicturesGiveNoShares() {
    assertEquals(0, MembraneModel.shipped().openShares(new float[0]).length);
  }
}
