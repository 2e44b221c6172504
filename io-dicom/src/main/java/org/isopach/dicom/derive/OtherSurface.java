package org.isopach.dicom.derive;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.dicom.data.Code;

/**
 * Surfaces of CID 4273 (group version 20240915) that none of our boundaries is, and the boundary of
 * ours that a reader could take for the same. The pairs are ours; no source.
 *
 * @param nearest the boundary of ours next to it; empty for none
 * @param why what sets them apart
 */
public record OtherSurface(Optional<Boundary> nearest, String why) {
  private static final Map<String, OtherSurface> KNOWN = known();

  /** Returns what is known of a surface that is no boundary of ours. */
  public static OtherSurface of(Code code) {
    return KNOWN.getOrDefault(
        code.scheme() + " " + code.value(),
        new OtherSurface(Optional.empty(), "the code is not one of CID 4273 as known here"));
  }

  private static Map<String, OtherSurface> known() {
    Map<String, OtherSurface> all = new LinkedHashMap<>();
    put(all, "DCM 128294", Boundary.OPL_ONL, "ours is the inner surface of Henle's fibre layer");
    put(all, "DCM 128298", Boundary.RPE, "ours is the outer surface of the RPE, not its centre");
    put(
        all,
        "DCM 128302",
        Boundary.BM,
        "ours ends at Bruch's membrane, inside the choriocapillaris");
    put(all, "DCM 128321", Boundary.EZ, "ours is the inner surface of the zone, not its midline");
    put(all, "DCM 128322", Boundary.EZ, "ours is the inner surface of the zone, not its outer one");
    put(all, "DCM 128323", Boundary.RPE_INNER, "ours is the inner surface of the RPE");
    put(all, "DCM 128324", Boundary.RPE_INNER, "ours is the inner surface of the RPE");
    all.put(
        "SCT 30322002",
        new OtherSurface(Optional.empty(), "the lamina cribrosa is not looked for here"));
    return all;
  }

  private static void put(Map<String, OtherSurface> all, String key, Boundary nearest, String why) {
    all.put(key, new OtherSurface(Optional.of(nearest), why));
  }
}
