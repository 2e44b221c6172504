package org.isopach.analysis.series;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * By how much a sector of a layer changes in a year in healthy eyes, or why that is not known.
 *
 * @param layer name of the layer, or {@code *} for any
 * @param sector name of the sector, or {@code *} for any
 * @param umPerYear expected slope in µm per year; empty where none may be subtracted
 * @param population whose slope it is
 * @param source where it is published
 * @param refusal why none may be subtracted; empty where one may
 */
public record AgeSlope(
    String layer,
    String sector,
    OptionalDouble umPerYear,
    String population,
    String source,
    String refusal) {
  /** Stands for any layer or sector. */
  public static final String ANY = "*";

  public AgeSlope {
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(sector, "sector");
    Objects.requireNonNull(umPerYear, "umPerYear");
    Objects.requireNonNull(population, "population");
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(refusal, "refusal");
    if (umPerYear.isPresent() != refusal.isEmpty()) {
      throw new IllegalArgumentException(
          layer + ", " + sector + ": either a slope or the reason why there is none");
    }
    if (umPerYear.isPresent() && (source.isEmpty() || !Double.isFinite(umPerYear.getAsDouble()))) {
      throw new IllegalArgumentException(layer + ", " + sector + ": a slope needs a source");
    }
  }

  /** Returns whether this is said of a sector of a layer. */
  public boolean isOf(String layerName, String sectorName) {
    return (layer.equals(ANY) || layer.equals(layerName))
        && (sector.equals(ANY) || sector.equals(sectorName));
  }
}
