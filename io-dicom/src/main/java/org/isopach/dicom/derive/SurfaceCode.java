package org.isopach.dicom.derive;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.dicom.data.Code;

/** What the standard calls our boundaries: CID 4273, group version 20240915. */
public final class SurfaceCode {
  private static final Map<Boundary, Code> CODES = codes();

  private SurfaceCode() {}

  /** Returns the code of a boundary. */
  public static Code of(Boundary boundary) {
    return CODES.get(boundary);
  }

  /** Returns the boundary of a code, or empty when we have none such. */
  public static Optional<Boundary> boundary(Code code) {
    return CODES.entrySet().stream()
        .filter(entry -> entry.getValue().sameAs(code))
        .map(Map.Entry::getKey)
        .findFirst();
  }

  private static Map<Boundary, Code> codes() {
    Map<Boundary, Code> codes = new EnumMap<>(Boundary.class);
    codes.put(Boundary.ILM, new Code("280677004", "SCT", "ILM - Internal limiting membrane"));
    put(codes, Boundary.RNFL_GCL, "128289", "Outer surface of RNFL");
    put(codes, Boundary.GCL_IPL, "128290", "Outer surface of GCL");
    put(codes, Boundary.IPL_INL, "128291", "Outer surface of IPL");
    put(codes, Boundary.INL_OPL, "128292", "Outer surface of INL");
    put(codes, Boundary.OPL_ONL, "128293", "Outer surface of OPL");
    codes.put(Boundary.ELM, new Code("76710003", "SCT", "ELM - External limiting membrane"));
    put(codes, Boundary.EZ, "128320", "Inner surface of the ellipsoid zone");
    put(codes, Boundary.RPE_INNER, "128297", "Inner surface of the RPE");
    put(codes, Boundary.RPE, "128299", "Outer surface of the RPE");
    put(codes, Boundary.BM, "128300", "Outer surface of Bruchs Membrane");
    put(codes, Boundary.CHOROID_SCLERA, "128301", "Surface of the choroid-sclera interface");
    return Collections.unmodifiableMap(codes);
  }

  private static void put(
      Map<Boundary, Code> codes, Boundary boundary, String value, String words) {
    codes.put(boundary, new Code(value, "DCM", words));
  }
}
