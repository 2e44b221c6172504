package org.isopach.analysis.quality;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Boundary;

/**
 * How good one frame is. Definitions and sources are in {@code docs/measurements.md}.
 *
 * @param frame 0-based index
 * @param state what became of it
 * @param signalToNoiseDb {@code 20 log10} of contrast over noise, both in greys as stored; empty
 *     when the frame was not read or has no contrast. Not an optical signal-to-noise ratio
 * @param saturatedFraction share of pixels in the uppermost 3 % of the grey range, margins left
 *     out; empty when not read
 * @param cutOff share of A-scans whose retina leaves the frame; empty when not looked at
 * @param mirrored share of A-scans that show a folded image; empty when not looked at
 * @param motionStepUm axial distance in µm from the neighbouring frame before it beyond the smooth
 *     shape of the fundus, positive towards the choroid; empty where either has no boundary or
 *     there is no such frame
 * @param covered for each boundary looked for, the share of A-scans that have a depth with enough
 *     confidence for a map; empty when none was looked for
 * @param meanConfidence mean confidence, 0 to 1, over all boundaries and A-scans, 0 counted where
 *     there is no depth; empty when none was looked for
 */
public record FrameQuality(
    int frame,
    FrameState state,
    OptionalDouble signalToNoiseDb,
    OptionalDouble saturatedFraction,
    OptionalDouble cutOff,
    OptionalDouble mirrored,
    OptionalDouble motionStepUm,
    Map<Boundary, Double> covered,
    OptionalDouble meanConfidence) {
  public FrameQuality {
    Objects.requireNonNull(state, "state");
    Map<Boundary, Double> copy = new EnumMap<>(Boundary.class);
    copy.putAll(covered);
    covered = Collections.unmodifiableMap(copy);
    checkFinite(signalToNoiseDb, "signalToNoiseDb");
    checkFinite(motionStepUm, "motionStepUm");
    checkShare(saturatedFraction, "saturatedFraction");
    checkShare(cutOff, "cutOff");
    checkShare(mirrored, "mirrored");
    checkShare(meanConfidence, "meanConfidence");
    covered.values().forEach(share -> checkShare(OptionalDouble.of(share), "covered"));
  }

  private static void checkFinite(OptionalDouble value, String name) {
    if (value.isPresent() && !Double.isFinite(value.getAsDouble())) {
      throw new IllegalArgumentException(name + " must be finite, was " + value.getAsDouble());
    }
  }

  private static void checkShare(OptionalDouble value, String name) {
    if (value.isPresent() && !(value.getAsDouble() >= 0 && value.getAsDouble() <= 1)) {
      throw new IllegalArgumentException(name + " must be from 0 to 1, was " + value.getAsDouble());
    }
  }
}
