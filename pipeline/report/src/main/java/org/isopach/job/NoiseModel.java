package org.isopach.job;

import org.isopach.analysis.change.RepeatNoise;
import org.isopach.analysis.layer.Layer;

/** The noise of every layer. */
@FunctionalInterface
public interface NoiseModel {
  /** No noise is known of anything. */
  NoiseModel UNKNOWN = layer -> RepeatNoise.unknown(layer, "no noise is known");

  /** Returns the noise of a layer; what is not known of it has a reason. */
  RepeatNoise of(Layer layer);

  /** Returns this model with what it lacks taken from another. */
  default NoiseModel or(NoiseModel other) {
    return layer -> of(layer).or(other.of(layer));
  }
}
