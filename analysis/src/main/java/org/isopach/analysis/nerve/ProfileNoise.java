package org.isopach.analysis.nerve;

import java.util.Objects;
import org.isopach.analysis.change.NoiseSource;

/**
 * How a profile varies between scans of an eye that did not change: a part that is local, the same
 * all round and correlated over a few degrees as exp(−distance / correlationDegrees), and a part
 * that the whole profile shares.
 *
 * @param localSdUm standard deviation of the local part of one sample in µm, above 0
 * @param correlationDegrees distance at which its correlation falls to 1/e, in degrees, above 0
 * @param sharedSdUm standard deviation of the shared part in µm, 0 or more
 * @param source where the figures come from
 * @param reference what was measured, in plain words
 */
public record ProfileNoise(
    double localSdUm,
    double correlationDegrees,
    double sharedSdUm,
    NoiseSource source,
    String reference) {
  public ProfileNoise {
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(reference, "reference");
    if (!(localSdUm > 0) || Double.isInfinite(localSdUm)) {
      throw new IllegalArgumentException("a local SD above 0 is needed, was " + localSdUm);
    }
    if (!(correlationDegrees > 0 && correlationDegrees < 180)
        || !(sharedSdUm >= 0)
        || Double.isInfinite(sharedSdUm)) {
      throw new IllegalArgumentException(
          "a length and a shared SD are needed, were " + correlationDegrees + ", " + sharedSdUm);
    }
  }

  /** Returns the standard deviation of one sample, both parts together, in µm. */
  public double sampleSdUm() {
    return Math.hypot(localSdUm, sharedSdUm);
  }

  /** Returns the noise of the difference of two such profiles: √2 times as much. */
  public ProfileNoise ofDifference() {
    double root = Math.sqrt(2);
    return new ProfileNoise(
        root * localSdUm, correlationDegrees, root * sharedSdUm, source, reference);
  }
}
