package org.isopach.analysis.stat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class BlandAltmanTest {
  private final BlandAltman flow =
      BlandAltman.of(
          Arrays.stream(Reference.rows("peak-flow.csv")).mapToDouble(r -> r[0] - r[2]).toArray(),
          0.95);

  @Test
  void agreesWithTheReference() {
    Reference.check("peakFlow.bias", flow.bias(), flow.sd(), flow.lowerLimit(), flow.upperLimit());
    Reference.check(
        "peakFlow.biasInterval", flow.biasInterval().lower(), flow.biasInterval().upper());
    double half = Reference.figures("peakFlow.halfWidthOfLimit")[0];
    Reference.close(flow.lowerLimit() - half, flow.lowerLimitInterval().lower(), 1e-9);
    Reference.close(flow.lowerLimit() + half, flow.lowerLimitInterval().upper(), 1e-9);
    Reference.close(flow.upperLimit() - half, flow.upperLimitInterval().lower(), 1e-9);
    Reference.close(flow.upperLimit() + half, flow.upperLimitInterval().upper(), 1e-9);
  }

  /**
   * Bland & Altman, Lancet 1986;i:307 (from memory): bias −2.1, SD 38.8, bias interval −22.0 to
   * 17.8, lower limit (of 2 SD) −79.7 with −114.3 to −45.1, so ± 34.6, for t = 2.12 and a standard
   * error of 16.3.
   */
  @Test
  void agreesWithThePaper() {
    assertEquals(-2.1, flow.bias(), 0.05);
    assertEquals(38.8, flow.sd(), 0.05);
    assertEquals(-22.0, flow.biasInterval().lower(), 0.06);
    assertEquals(17.8, flow.biasInterval().upper(), 0.06);
    assertEquals(34.6, flow.lowerLimit() - flow.lowerLimitInterval().lower(), 0.1);
  }

  @Test
  void hasNoWidthForEqualDifferences() {
    BlandAltman same = BlandAltman.of(new double[] {0.3, 0.3, 0.3}, 0.95);

    assertEquals(0, same.sd());
    assertEquals(0.3, same.lowerLimit());
    assertEquals(new ConfidenceInterval(0.3, 0.3, 0.95), same.upperLimitInterval());
  }

  @Test
  void refusesFewerThanThreePairs() {
    CannotEstimateException refusal =
        assertThrows(
            CannotEstimateException.class, () -> BlandAltman.of(new double[] {1, 2}, 0.95));

    assertEquals(CannotEstimateException.Reason.TOO_FEW, refusal.reason());
    assertEquals("needs at least 3 pairs, found 2", refusal.getMessage());
    assertThrows(
        IllegalArgumentException.class,
        () -> BlandAltman.of(new double[] {1, 2, Double.NaN}, 0.95));
  }
}
