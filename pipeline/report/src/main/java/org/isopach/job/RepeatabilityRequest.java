package org.isopach.job;

import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.Objects;
import java.util.Set;
import org.isopach.analysis.layer.Layer;

/**
 * What is to be done about repeats.
 *
 * @param job what to measure and where to
 * @param withinDays how many calendar days after the first a repeat may be made, not negative; 0 is
 *     the same day
 * @param plottedLayers layers with a plot, of those measured
 * @param plottedSectors sectors with a plot, by name; the grid's total is one
 */
public record RepeatabilityRequest(
    JobRequest job, int withinDays, Set<Layer> plottedLayers, Set<String> plottedSectors) {
  public RepeatabilityRequest {
    Objects.requireNonNull(job, "job");
    if (withinDays < 0) {
      throw new IllegalArgumentException("days must not be negative, were " + withinDays);
    }
    plottedLayers = Collections.unmodifiableSet(new LinkedHashSet<>(plottedLayers));
    plottedSectors = Collections.unmodifiableSet(new LinkedHashSet<>(plottedSectors));
  }
}
