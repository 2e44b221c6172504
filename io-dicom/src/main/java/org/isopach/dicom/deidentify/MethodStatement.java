package org.isopach.dicom.deidentify;

import java.util.ArrayList;
import java.util.List;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Vr;

/** What a copy says of how it was de-identified (PS3.15, E.1.1; codes of PS3.16, CID 7050). */
final class MethodStatement {
  private static final int IDENTITY_REMOVED = 0x00120062;
  private static final int METHOD = 0x00120063;
  private static final int METHOD_CODES = 0x00120064;
  private static final int DATES = 0x00280303;
  private static final int CONTENT_SEQUENCE = 0x0040A730;

  private MethodStatement() {}

  static Dataset addTo(Dataset clean, Options options) {
    List<Dataset> codes = new ArrayList<>();
    codes.add(code("113100", "Basic Application Confidentiality Profile"));
    if (clean.has(CONTENT_SEQUENCE)) {
      codes.add(code("113104", "Clean Structured Content Option"));
    }
    if (options.shiftDates()) {
      codes.add(code("113107", "Retain Longitudinal Temporal Information Modified Dates Option"));
    }
    if (options.keepCharacteristics()) {
      codes.add(code("113108", "Retain Patient Characteristics Option"));
    }
    if (options.keepDevice()) {
      codes.add(code("113109", "Retain Device Identity Option"));
    }
    return clean.toBuilder()
        .text(IDENTITY_REMOVED, Vr.CS, "YES")
        .text(METHOD, Vr.LO, "Isopach, PS3.15 annex E, table of 2024b")
        .items(METHOD_CODES, codes)
        .text(DATES, Vr.CS, options.shiftDates() ? "MODIFIED" : "REMOVED")
        .build();
  }

  private static Dataset code(String value, String meaning) {
    return new Code(value, "DCM", meaning).toItem();
  }
}
