package org.isopach.dicom.derive;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.isopach.dicom.data.Code;

/**
 * The codes of the macular grid: LOINC, as DICOM PS3.16 uses them (CID 4285, 2025-07; the same
 * codes since the report's first edition). LOINC defines them by the thickness from the internal
 * limiting membrane to the retinal pigment epithelium.
 */
public final class MacularGridCodes {
  /** The thickness at the centre point. */
  public static final Code CENTRE_POINT =
      new Code("57108-3", "LN", "Macular Grid.Center Point Thickness");

  /** The volume of the whole grid. */
  public static final Code TOTAL_VOLUME = new Code("57118-2", "LN", "Macular Grid.Total Volume");

  /** Micrometres. */
  public static final Code MICROMETRE = new Code("um", "UCUM", "micrometer");

  /** Cubic millimetres; CID 4285 of 2025 has microlitres, which are the same number. */
  public static final Code CUBIC_MILLIMETRE = new Code("mm3", "UCUM", "cubic millimeter");

  /** The codes of the nine sectors by our names of them, in the order of CID 4285. */
  public static final Map<String, Code> SECTORS = sectors();

  private MacularGridCodes() {}

  private static Map<String, Code> sectors() {
    Map<String, Code> codes = new LinkedHashMap<>();
    put(codes, "centre", "57109-1", "Center");
    put(codes, "inner-superior", "57110-9", "Inner Superior");
    put(codes, "inner-nasal", "57111-7", "Inner Nasal");
    put(codes, "inner-inferior", "57112-5", "Inner Inferior");
    put(codes, "inner-temporal", "57113-3", "Inner Temporal");
    put(codes, "outer-superior", "57114-1", "Outer Superior");
    put(codes, "outer-nasal", "57115-8", "Outer Nasal");
    put(codes, "outer-inferior", "57116-6", "Outer Inferior");
    put(codes, "outer-temporal", "57117-4", "Outer Temporal");
    return Collections.unmodifiableMap(codes);
  }

  private static void put(Map<String, Code> codes, String sector, String value, String words) {
    codes.put(sector, new Code(value, "LN", "Macular Grid." + words + " Subfield Thickness"));
  }
}
