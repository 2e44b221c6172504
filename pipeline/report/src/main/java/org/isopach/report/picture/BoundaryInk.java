package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;

/**
 * How each boundary is drawn on a frame. Neighbours differ in colour and in dashes, and every line
 * has its name at its end, so that no one has to tell colours apart.
 */
record BoundaryInk(Color colour, BasicStroke stroke) {
  private static final Color STRAW = new Color(0xF6E7A6);
  private static final Color SKY = new Color(0x86C6F2);
  private static final Color AMBER = new Color(0xE8984A);
  private static final Color VIOLET = new Color(0xB98BE6);
  private static final float WIDTH = 1.5f;
  private static final float[] DASHED = {9, 4};
  private static final float[] DOTTED = {2, 4};
  private static final Map<Boundary, BoundaryInk> INKS = inks();

  static BoundaryInk of(Boundary boundary) {
    return INKS.get(boundary);
  }

  private static Map<Boundary, BoundaryInk> inks() {
    Map<Boundary, BoundaryInk> inks = new EnumMap<>(Boundary.class);
    inks.put(Boundary.ILM, solid(STRAW));
    inks.put(Boundary.RNFL_GCL, broken(SKY, DASHED));
    inks.put(Boundary.GCL_IPL, broken(AMBER, DOTTED));
    inks.put(Boundary.IPL_INL, solid(VIOLET));
    inks.put(Boundary.INL_OPL, broken(STRAW, DASHED));
    inks.put(Boundary.OPL_ONL, solid(SKY));
    inks.put(Boundary.ELM, broken(AMBER, DASHED));
    inks.put(Boundary.EZ, solid(STRAW));
    inks.put(Boundary.RPE_INNER, broken(SKY, DASHED));
    inks.put(Boundary.RPE, solid(AMBER));
    inks.put(Boundary.BM, broken(VIOLET, DASHED));
    inks.put(Boundary.CHOROID_SCLERA, broken(STRAW, DOTTED));
    return inks;
  }

  private static BoundaryInk solid(Color colour) {
    return new BoundaryInk(
        colour, new BasicStroke(WIDTH, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND));
  }

  private static BoundaryInk broken(Color colour, float[] dashes) {
    return new BoundaryInk(
        colour,
        new BasicStroke(WIDTH, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dashes, 0));
  }
}
