package org.isopach.analysis.nerve;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.change.SectorNoise;

/**
 * The means of one place at two visits and the noise of one scan there.
 *
 * @param place name of the place
 * @param baselineUm mean at the baseline in µm; NaN where there is none
 * @param followUpUm mean at the follow-up in µm; NaN where there is none
 * @param noise within-subject standard deviation of one scan; empty where not known
 */
public record PlacePair(
    String place, double baselineUm, double followUpUm, Optional<SectorNoise> noise) {
  public PlacePair {
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(noise, "noise");
  }
}
