package org.isopach.analysis.layer;

import java.util.Optional;

/**
 * The boundaries a scan can have, from the vitreous outwards. The order of the constants is the
 * order in the eye: in any A-scan a later boundary is never above an earlier one.
 *
 * <p>Names follow the consensus nomenclature for optical coherence tomography (Staurenghi et al.,
 * Ophthalmology 2014;121:1572; cited from memory).
 */
public enum Boundary {
  /** Inner limiting membrane: vitreous to retina. */
  ILM("ILM"),
  RNFL_GCL("RNFL-GCL"),
  GCL_IPL("GCL-IPL"),
  IPL_INL("IPL-INL"),
  INL_OPL("INL-OPL"),
  /** Outer plexiform layer to Henle fibre layer and outer nuclear layer. */
  OPL_ONL("OPL-ONL"),
  /** External limiting membrane, its centre. */
  ELM("ELM"),
  /** Inner border of the ellipsoid zone: the photoreceptor inner/outer segment line. */
  EZ("EZ"),
  /** Inner border of the retinal pigment epithelium band. */
  RPE_INNER("RPE-inner"),
  /** Outer border of the retinal pigment epithelium band. */
  RPE("RPE"),
  /** Bruch's membrane, its outer face. */
  BM("BM"),
  /** Choroid to sclera. */
  CHOROID_SCLERA("choroid-sclera");

  private final String code;

  Boundary(String code) {
    this.code = code;
  }

  /** Returns the boundary's name in tables and on the command line. */
  public String code() {
    return code;
  }

  /** Returns the boundary of a name as {@link #code()} gives it, or empty. */
  public static Optional<Boundary> ofCode(String code) {
    for (Boundary boundary : values()) {
      if (boundary.code.equals(code)) {
        return Optional.of(boundary);
      }
    }
    return Optional.empty();
  }
}
