package org.isopach.analysis.quality;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.isopach.analysis.layer.Boundary;

/**
 * How good a scan is: its frames, and where its fovea lies in it.
 *
 * @param frames one entry for each frame, in order
 * @param decentrationMm distance in mm from the foveal pit to the middle of the scanned area; empty
 *     when either is unknown
 * @param foveaToEdgeMm distance in mm from the foveal pit to the nearest side of the upright
 *     rectangle around the scan, 0 when outside; empty likewise
 */
public record ScanQuality(
    List<FrameQuality> frames, OptionalDouble decentrationMm, OptionalDouble foveaToEdgeMm) {
  public ScanQuality {
    frames = List.copyOf(frames);
    Objects.requireNonNull(decentrationMm, "decentrationMm");
    Objects.requireNonNull(foveaToEdgeMm, "foveaToEdgeMm");
  }

  /** Returns the median over frames of the signal-to-noise ratio in dB; dark frames left out. */
  public OptionalDouble signalToNoiseDb() {
    return median(
        frames.stream()
            .filter(frame -> frame.state() != FrameState.DARK)
            .map(FrameQuality::signalToNoiseDb)
            .toList());
  }

  /** Returns the number of frames in a state. */
  public int count(FrameState state) {
    return (int) frames.stream().filter(frame -> frame.state() == state).count();
  }

  /** Returns the mean over frames of the share of saturated pixels. */
  public OptionalDouble saturatedFraction() {
    return mean(FrameQuality::saturatedFraction);
  }

  /** Returns the mean over frames of the share of A-scans whose retina leaves the frame. */
  public OptionalDouble cutOff() {
    return mean(FrameQuality::cutOff);
  }

  /** Returns the mean over frames of the share of A-scans that show a folded image. */
  public OptionalDouble mirrored() {
    return mean(FrameQuality::mirrored);
  }

  /** Returns the largest axial step between neighbouring frames in µm, without sign. */
  public OptionalDouble largestMotionStepUm() {
    return frames.stream()
        .map(FrameQuality::motionStepUm)
        .filter(OptionalDouble::isPresent)
        .mapToDouble(step -> Math.abs(step.getAsDouble()))
        .max();
  }

  /**
   * Returns for each boundary the share of all A-scans of the scan that have a depth with enough
   * confidence for a map; a frame without depths counts as 0.
   */
  public Map<Boundary, Double> covered() {
    Map<Boundary, Double> sums = new EnumMap<>(Boundary.class);
    for (FrameQuality frame : frames) {
      frame.covered().forEach((boundary, share) -> sums.merge(boundary, share, Double::sum));
    }
    sums.replaceAll((boundary, sum) -> Math.min(1, sum / frames.size()));
    return Collections.unmodifiableMap(sums);
  }

  /** Returns the mean confidence over frames in which boundaries were looked for. */
  public OptionalDouble meanConfidence() {
    return mean(FrameQuality::meanConfidence);
  }

  private OptionalDouble mean(Function<FrameQuality, OptionalDouble> value) {
    return frames.stream()
        .map(value)
        .filter(OptionalDouble::isPresent)
        .mapToDouble(OptionalDouble::getAsDouble)
        .average();
  }

  private static OptionalDouble median(List<OptionalDouble> values) {
    double[] present =
        values.stream()
            .filter(OptionalDouble::isPresent)
            .mapToDouble(OptionalDouble::getAsDouble)
            .sorted()
            .toArray();
    if (present.length == 0) {
      return OptionalDouble.empty();
    }
    int half = present.length / 2;
    double middle =
        present.length % 2 == 1 ? present[half] : (present[half - 1] + present[half]) / 2;
    return OptionalDouble.of(middle);
  }
}
