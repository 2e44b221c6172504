package org.isopach.analysis.change;

import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.layer.Layer;

/**
 * The test–retest noise of one layer, as far as it is known.
 *
 * @param layer the layer
 * @param sectors by sector name, the total included; sectors of which nothing is known are missing
 * @param points of maps; empty when nothing is known
 * @param gap why what is missing is missing, in plain words
 */
public record RepeatNoise(
    Layer layer, Map<String, SectorNoise> sectors, Optional<PointNoise> points, String gap) {
  public RepeatNoise {
    Objects.requireNonNull(layer, "layer");
    sectors = Map.copyOf(sectors);
    Objects.requireNonNull(points, "points");
    Objects.requireNonNull(gap, "gap");
  }

  /** Returns a layer of which nothing is known. */
  public static RepeatNoise unknown(Layer layer, String gap) {
    return new RepeatNoise(layer, Map.of(), Optional.empty(), gap);
  }

  /** Returns what is known of a sector's mean or of the total. */
  public Optional<SectorNoise> sector(String name) {
    return Optional.ofNullable(sectors.get(name));
  }

  /** Returns this noise with what it lacks taken from another of the same layer. */
  public RepeatNoise or(RepeatNoise other) {
    Map<String, SectorNoise> all = new HashMap<>(other.sectors);
    all.putAll(sectors);
    String gaps = gap.isEmpty() ? other.gap : gap + "; " + other.gap;
    return new RepeatNoise(layer, all, points.or(other::points), gaps);
  }
}
