package org.isopach.segment.tissue;

import java.util.Optional;
import org.isopach.analysis.layer.Boundary;

/**
 * What a cell of the coarse picture can show. The constants up to {@link #SCLERA} are the layers in
 * the order of the eye, each beginning at its boundary; the rest lie within or between layers.
 */
public enum Tissue {
  VITREOUS(0, null),
  RNFL(1, Boundary.ILM),
  GCL(2, Boundary.RNFL_GCL),
  IPL(3, Boundary.GCL_IPL),
  INL(4, Boundary.IPL_INL),
  OPL(5, Boundary.INL_OPL),
  /** Henle fibre and outer nuclear layer. */
  ONL(6, Boundary.OPL_ONL),
  /** Myoid: external limiting membrane to ellipsoid zone. */
  MYOID(7, Boundary.ELM),
  /** Ellipsoid zone and outer segments. */
  SEGMENTS(8, Boundary.EZ),
  /** The band of the pigment epithelium. */
  EPITHELIUM(9, Boundary.RPE_INNER),
  /** From the pigment epithelium's outer border to Bruch's membrane. */
  BRUCH(10, Boundary.RPE),
  CHOROID(11, Boundary.BM),
  SCLERA(12, Boundary.CHOROID_SCLERA),
  INTRARETINAL_FLUID(13, null),
  SUBRETINAL_FLUID(14, null),
  /** Between a raised pigment epithelium and Bruch's membrane. */
  RPE_ELEVATION(15, null),
  HYPERREFLECTIVE_MATERIAL(16, null),
  /** Behind the inner surface inside the optic disc, where there are no layers. */
  DISC(17, null);

  private final int index;
  private final Boundary beginsAt;

  Tissue(int index, Boundary beginsAt) {
    this.index = index;
    this.beginsAt = beginsAt;
  }

  /** Returns the place among the model's outputs. */
  public int index() {
    return index;
  }

  /**
   * Returns the boundary that a layer begins at; empty for the vitreous and for what is no layer.
   */
  public Optional<Boundary> beginsAt() {
    return Optional.ofNullable(beginsAt);
  }
}
