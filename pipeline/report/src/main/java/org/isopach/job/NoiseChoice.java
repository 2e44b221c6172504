package org.isopach.job;

import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * Where the noise of repeated scans is looked for, beside the scans that are compared.
 *
 * @param repeats a folder of repeated scans
 * @param population whose published figures are used where nothing was measured
 */
public record NoiseChoice(Optional<Path> repeats, String population) {
  /** Repeats among the scans themselves, then the figures of normal eyes. */
  public static final NoiseChoice USUAL = new NoiseChoice(Optional.empty(), "normal");

  /** Returns the names of the populations of which something is published, in order. */
  public static Set<String> populations() {
    return PublishedNoise.populations();
  }

  public NoiseChoice {
    Objects.requireNonNull(repeats, "repeats");
    if (!populations().contains(population)) {
      throw new IllegalArgumentException("nothing is published here of " + population);
    }
  }
}
