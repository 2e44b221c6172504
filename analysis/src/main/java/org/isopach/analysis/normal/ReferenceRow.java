package org.isopach.analysis.normal;

import java.util.Objects;
import java.util.Optional;

/**
 * Mean and spread of a group of healthy eyes in one place.
 *
 * @param source where it comes from
 * @param place what is measured and where
 * @param meanUm mean in µm
 * @param sdUm standard deviation between people in µm, above 0; it holds one scan's own noise
 * @param n number of people (not eyes), at least 2
 * @param age how the mean differs with age; empty where the source gives no slope or not the age at
 *     which its mean holds
 * @param axialLength how it differs with axial length
 * @param discArea how it differs with disc area
 * @param scope which eyes it is about
 */
public record ReferenceRow(
    ReferenceSource source,
    ReferencePlace place,
    double meanUm,
    double sdUm,
    int n,
    Optional<ReferenceSlope> age,
    Optional<ReferenceSlope> axialLength,
    Optional<ReferenceSlope> discArea,
    ReferenceScope scope) {
  public ReferenceRow {
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(age, "age");
    Objects.requireNonNull(axialLength, "axialLength");
    Objects.requireNonNull(discArea, "discArea");
    Objects.requireNonNull(scope, "scope");
    if (!Double.isFinite(meanUm) || !(sdUm > 0) || Double.isInfinite(sdUm) || n < 2) {
      throw new IllegalArgumentException(
          "a mean, an SD above 0 and 2 people or more, were " + meanUm + ", " + sdUm + ", " + n);
    }
  }

  /** Returns the group's name and size for a sentence. */
  public String words() {
    return source.referenceId() + " (" + source.population() + ", N = " + n + ")";
  }
}
