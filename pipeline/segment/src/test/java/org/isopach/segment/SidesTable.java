package org.isopach.segment;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.Tissue;

/**
 * On which side of each boundary a tissue lies, written out by hand from the anatomy: one sign for
 * each boundary from the inner limiting membrane outwards, {@code +} where the tissue lies outside
 * of the boundary, {@code -} where inside, {@code .} where it may lie on either side.
 */
final class SidesTable {
  private static final Map<Tissue, String> SIGNS = new EnumMap<>(Tissue.class);

  static {
    SIGNS.put(Tissue.VITREOUS, "------------");
    SIGNS.put(Tissue.RNFL, "+-----------");
    SIGNS.put(Tissue.GCL, "++----------");
    SIGNS.put(Tissue.IPL, "+++---------");
    SIGNS.put(Tissue.INL, "++++--------");
    SIGNS.put(Tissue.OPL, "+++++-------");
    SIGNS.put(Tissue.ONL, "++++++------");
    SIGNS.put(Tissue.MYOID, "+++++++-----");
    SIGNS.put(Tissue.SEGMENTS, "++++++++----");
    SIGNS.put(Tissue.EPITHELIUM, "+++++++++---");
    SIGNS.put(Tissue.BRUCH, "++++++++++--");
    SIGNS.put(Tissue.CHOROID, "+++++++++++-");
    SIGNS.put(Tissue.SCLERA, "++++++++++++");
    SIGNS.put(Tissue.INTRARETINAL_FLUID, "+.....------");
    SIGNS.put(Tissue.SUBRETINAL_FLUID, "++++++++----");
    SIGNS.put(Tissue.HYPERREFLECTIVE_MATERIAL, "++++++++----");
    SIGNS.put(Tissue.RPE_ELEVATION, "++++++++++--");
    SIGNS.put(Tissue.DISC, "+...........");
  }

  private SidesTable() {}

  /** Returns 1 where a tissue lies outside of a boundary, -1 inside, 0 on either side. */
  static int side(Boundary boundary, Tissue tissue) {
    return switch (SIGNS.get(tissue).charAt(List.of(Boundary.values()).indexOf(boundary))) {
      case '+' -> 1;
      case '-' -> -1;
      default -> 0;
    };
  }
}
