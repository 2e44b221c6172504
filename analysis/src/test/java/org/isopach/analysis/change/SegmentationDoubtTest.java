package org.isopach.analysis.change;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SegmentationDoubtTest {
  /** Normal quantiles of printed tables: z(0.975), z(0.95), z(0.75). */
  @ParameterizedTest
  @CsvSource({"0.95,1.959964", "0.90,1.644854", "0.50,0.674490"})
  void isTheVarianceOfANormalErrorThatIsWithinTwoPixelsThatOften(double confidence, double z) {
    assertEquals(Math.pow(7.74 / z, 2), SegmentationDoubt.ofConfidence(confidence), 1e-3);
  }

  @Test
  void hasAnEnd() {
    assertEquals(SegmentationDoubt.ofConfidence(1), SegmentationDoubt.ofConfidence(0.995));
    assertTrue(SegmentationDoubt.ofConfidence(0.3) > SegmentationDoubt.ofConfidence(0.9));
  }
}
