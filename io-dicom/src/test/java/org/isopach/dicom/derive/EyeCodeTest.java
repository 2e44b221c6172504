package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.dicom.data.Code;
import org.junit.jupiter.api.Test;

/** PS3.16, CID 247 (24028007, right; 7771000, left); the SNOMED-RT codes are from memory. */
class EyeCodeTest {
  @Test
  void sidesAreUnderstoodInBothForms() {
    assertEquals(Optional.of(Laterality.RIGHT), side("24028007", "SCT"));
    assertEquals(Optional.of(Laterality.LEFT), side("7771000", "SCT"));
    assertEquals(Optional.of(Laterality.RIGHT), side("G-A100", "SRT"));
    assertEquals(Optional.of(Laterality.LEFT), side("G-A101", "SRT"));
  }

  @Test
  void aCodeOfAnotherSchemeOrBothSidesIsNoSide() {
    assertEquals(Optional.empty(), side("G-A100", "SCT"));
    assertEquals(Optional.empty(), side("24028007", "SRT"));
    assertEquals(Optional.empty(), side("51440002", "SCT"));
    assertEquals(Optional.empty(), side("G-A100", "99GANNET"));
  }

  private static Optional<Laterality> side(String value, String scheme) {
    return EyeCode.laterality(new Code(value, scheme, ""));
  }
}
