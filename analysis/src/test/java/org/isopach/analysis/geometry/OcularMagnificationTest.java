package org.isopach.analysis.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Bennett, Rudnicka and Edgar 1994, abbreviated formula; constants from memory, the values below
 * computed by hand from it to the digits shown.
 */
class OcularMagnificationTest {
  @ParameterizedTest
  @CsvSource({
    "22, 0.263551",
    "23, 0.276611",
    "24, 0.289671",
    "24.46, 0.295678",
    "26, 0.315791",
    "28, 0.341911"
  })
  void givesTheRetinalLengthOfADegree(double axialLength, double expected) {
    assertEquals(expected, new OcularMagnification(axialLength).mmPerDegree(), 5e-7);
  }

  @ParameterizedTest
  @CsvSource({"22, 0.90983", "23, 0.95491", "24, 1", "25, 1.04509", "26, 1.09017", "28, 1.18034"})
  void comparesAnEyeWithTheAssumedOne(double axialLength, double expected) {
    OcularMagnification assumed = new OcularMagnification(24);

    assertEquals(expected, new OcularMagnification(axialLength).factorFrom(assumed), 5e-6);
  }

  @Test
  void stretchesEveryLengthOfAPathForALongEye() {
    ScanPath path =
        ScanPath.ofLines(
            List.of(new FundusPoint(-3, 1), new FundusPoint(-3, 1.5)),
            List.of(new FundusPoint(3, 1), new FundusPoint(3, 1.5)),
            4,
            new FundusFrame(FundusFrame.Kind.PATIENT, ""));

    ScanPath rescaled = new OcularMagnification(26).rescale(path, new OcularMagnification(24));

    assertEquals(2 * 1.09017, rescaled.ascanSpacingMm(), 2e-5);
    assertEquals(0.5 * 1.09017, rescaled.frameSpacingMm(), 5e-6);
    assertEquals(-3 * 1.09017, rescaled.xMm(0, 0), 3e-5);
    assertEquals(1.09017, rescaled.yMm(0, 0), 1e-5);
  }

  @ParameterizedTest
  @ValueSource(doubles = {17.99, 35.01, -24, 0, 2.4, 240, Double.NaN, Double.POSITIVE_INFINITY})
  void refusesLengthsNoEyeHas(double axialLength) {
    assertThrows(IllegalArgumentException.class, () -> new OcularMagnification(axialLength));
  }

  @ParameterizedTest
  @ValueSource(doubles = {18, 35})
  void believesTheLimits(double axialLength) {
    assertEquals(axialLength, new OcularMagnification(axialLength).axialLengthMm());
  }
}
