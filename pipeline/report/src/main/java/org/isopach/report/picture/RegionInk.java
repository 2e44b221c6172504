package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.region.RegionKind;

/**
 * How each kind of region is outlined: white for all, told apart by dashes and a letter.
 *
 * @param letter stands in the region and in the key
 * @param words the kind in words
 * @param stroke the outline
 */
record RegionInk(String letter, String words, BasicStroke stroke) {
  private static final float WIDTH = 2.2f;
  private static final Map<RegionKind, RegionInk> INKS = inks();

  static RegionInk of(RegionKind kind) {
    return INKS.get(kind);
  }

  private static Map<RegionKind, RegionInk> inks() {
    Map<RegionKind, RegionInk> inks = new EnumMap<>(RegionKind.class);
    inks.put(RegionKind.INTRARETINAL_FLUID, new RegionInk("I", "intraretinal fluid", stroke(null)));
    inks.put(
        RegionKind.SUBRETINAL_FLUID,
        new RegionInk("S", "subretinal fluid", stroke(new float[] {10, 5})));
    inks.put(
        RegionKind.RPE_ELEVATION,
        new RegionInk("E", "epithelium raised", stroke(new float[] {10, 4, 2, 4})));
    inks.put(
        RegionKind.HYPERREFLECTIVE_MATERIAL,
        new RegionInk("H", "hyperreflective matter", stroke(new float[] {2, 4})));
    return inks;
  }

  private static BasicStroke stroke(float[] dashes) {
    return new BasicStroke(WIDTH, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dashes, 0);
  }
}
