package org.isopach.analysis.layer;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The boundaries found in one scan, in strict order: where two are both present in an A-scan, the
 * outer one is not above the inner one. Immutable.
 */
public final class BoundarySet {
  private final Map<Boundary, BoundarySurface> surfaces;

  /**
   * Makes a set from at least one surface.
   *
   * @throws IllegalArgumentException when the map is empty, shapes differ, or two surfaces cross
   */
  public BoundarySet(Map<Boundary, BoundarySurface> surfaces) {
    if (surfaces.isEmpty()) {
      throw new IllegalArgumentException("a boundary set needs at least one surface");
    }
    this.surfaces = Collections.unmodifiableMap(new EnumMap<>(surfaces));
    checkShapes();
    checkOrder();
  }

  /** Returns the boundaries present, in the order of the eye. */
  public Set<Boundary> boundaries() {
    return surfaces.keySet();
  }

  /** Returns the surface of a boundary, or empty when it was not looked for. */
  public Optional<BoundarySurface> surface(Boundary boundary) {
    return Optional.ofNullable(surfaces.get(boundary));
  }

  /** Returns the number of frames. */
  public int frames() {
    return surfaces.values().iterator().next().frames();
  }

  /** Returns the number of A-scans in each frame. */
  public int ascans() {
    return surfaces.values().iterator().next().ascans();
  }

  /** Returns whether both boundaries of a layer were looked for. */
  public boolean has(Layer layer) {
    return surfaces.containsKey(layer.inner()) && surfaces.containsKey(layer.outer());
  }

  private void checkShapes() {
    for (BoundarySurface surface : surfaces.values()) {
      if (surface.frames() != frames() || surface.ascans() != ascans()) {
        throw new IllegalArgumentException("the surfaces of a set must have one shape");
      }
    }
  }

  private void checkOrder() {
    for (int f = 0; f < frames(); f++) {
      for (int a = 0; a < ascans(); a++) {
        float above = Float.NEGATIVE_INFINITY;
        for (Map.Entry<Boundary, BoundarySurface> entry : surfaces.entrySet()) {
          float depth = entry.getValue().depthPx(f, a);
          if (Float.isNaN(depth)) {
            continue;
          }
          if (depth < above) {
            throw new IllegalArgumentException(
                entry.getKey().code() + " crosses an inner boundary at frame " + f + ", " + a);
          }
          above = depth;
        }
      }
    }
  }
}
