package org.isopach.analysis.layer;

import java.util.Objects;
import java.util.Optional;

/**
 * What lies between two boundaries; the definition every thickness is tied to.
 *
 * @param inner the boundary nearer to the vitreous
 * @param outer the boundary further out; after {@code inner} in the order of {@link Boundary}
 */
public record Layer(Boundary inner, Boundary outer) {
  /** Whole retina to Bruch's membrane. */
  public static final Layer ILM_BM = new Layer(Boundary.ILM, Boundary.BM);

  /** Whole retina to the outer border of the pigment epithelium. */
  public static final Layer ILM_RPE = new Layer(Boundary.ILM, Boundary.RPE);

  /** Retina to the photoreceptor inner/outer segment line. */
  public static final Layer ILM_EZ = new Layer(Boundary.ILM, Boundary.EZ);

  public Layer {
    Objects.requireNonNull(inner, "inner");
    Objects.requireNonNull(outer, "outer");
    if (inner.compareTo(outer) >= 0) {
      throw new IllegalArgumentException(
          "the inner boundary must come first, was " + inner.code() + " and " + outer.code());
    }
  }

  /** Returns the two boundary codes joined by a hyphen, for example {@code ILM-BM}. */
  public String name() {
    return inner.code() + "-" + outer.code();
  }

  /** Returns the layer of a name as {@link #name()} gives it, or empty. */
  public static Optional<Layer> ofName(String name) {
    for (Boundary inner : Boundary.values()) {
      for (Boundary outer : Boundary.values()) {
        if (inner.compareTo(outer) < 0 && (inner.code() + "-" + outer.code()).equals(name)) {
          return Optional.of(new Layer(inner, outer));
        }
      }
    }
    return Optional.empty();
  }
}
