package org.isopach.dicom.data;

import java.util.Map;

/**
 * Codes of SNOMED CT (SCT) and what older objects have in their place: SNOMED-RT identifiers
 * (Coding Scheme Designator SRT). Only those that we read by; the pairs are from memory.
 */
public final class FormerCodes {
  private static final String NOW = "SCT";
  private static final String FORMER = "SRT";

  /** SNOMED-RT by SNOMED CT: right, left, laterality, measurement method. */
  private static final Map<String, String> PAIRS =
      Map.of(
          "24028007", "G-A100",
          "7771000", "G-A101",
          "272741003", "G-C171",
          "370129005", "G-C036");

  private FormerCodes() {}

  /**
   * Returns whether a code is the same concept as another, be it in its former form.
   *
   * @param found the code that somebody wrote
   * @param wanted the code as it is today
   */
  public static boolean same(Code found, Code wanted) {
    return found.sameAs(wanted)
        || (wanted.scheme().equals(NOW)
            && found.scheme().equals(FORMER)
            && found.value().equals(PAIRS.get(wanted.value())));
  }
}
