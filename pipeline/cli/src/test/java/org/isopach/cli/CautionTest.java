package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.isopach.dicom.Caution;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.Test;

class CautionTest {
  @Test
  void objectsAndPagesSayTheSame() {
    assertEquals(Cautions.LINE, Caution.LINE);
  }

  /** DICOM PS3.5, table 6.2-1: a long string has at most 64 characters. */
  @Test
  void theShortFormFitsALongString() {
    assertTrue(Caution.SHORT.length() <= 64, Caution.SHORT);
    assertTrue(Caution.SHORT.startsWith("Research use. Not a diagnosis. Clinician decides"));
  }
}
