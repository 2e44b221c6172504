package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SmallPartsTest {
  @ParameterizedTest
  @CsvSource({
    "20250314101530.250000+0100, 20250314, 101530.250000",
    "20250314, 20250314, 000000",
    "202503, 20250301, 000000",
    "2025, 20250101, 000000",
    "2025031410-0530, 20250314, 10",
  })
  void dateAndTimeAreTakenFromADateTime(String dateTime, String date, String time) {
    assertTrue(AcquiredAt.readable(dateTime));
    assertEquals(date, AcquiredAt.date(dateTime));
    assertEquals(time, AcquiredAt.time(dateTime));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "25", "2025-03-14", "202503141", "spring"})
  void anythingElseIsNotADateTime(String text) {
    assertFalse(AcquiredAt.readable(text));
  }

  @ParameterizedTest
  @CsvSource({
    "0.02, 0.02",
    "20, 20",
    "1.0E-5, 0.00001",
    "0.0123456789012345, 0.01234567890123",
    "1.23456789012E-12, 1.2345678901E-12",
    "-0.0123456789012345, -0.0123456789012",
  })
  void decimalsFitSixteenCharacters(double value, String text) {
    assertTrue(text.length() <= 16);
    assertEquals(text, DecimalText.of(value));
  }

  @Test
  void storedThicknessIsRightToHalfAStep() {
    for (float um = 0; um < 4095; um += 0.37f) {
      assertTrue(StoredThickness.fits(um));
      int stored = StoredThickness.stored(um);
      assertTrue(stored >= StoredThickness.FIRST && stored <= StoredThickness.LAST);
      assertEquals(um, StoredThickness.micrometres(stored), 0.03125 + 1e-9);
    }
    assertEquals(StoredThickness.NO_VALUE, StoredThickness.stored(Float.NaN));
    assertFalse(StoredThickness.fits(-0.01f));
    assertFalse(StoredThickness.fits(4096));
    assertTrue(StoredThickness.fits(4095.875f));
  }

  @Test
  void provenanceNeedsAVersionAndAScale() {
    assertThrows(IllegalArgumentException.class, () -> MapProvenance.of(" ", ""));
    assertThrows(
        IllegalArgumentException.class,
        () -> new MapProvenance("1", "", AcquisitionMethod.TIME_DOMAIN, 0));
  }
}
