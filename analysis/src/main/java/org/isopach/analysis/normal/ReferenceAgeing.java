package org.isopach.analysis.normal;

import java.util.Objects;

/**
 * By how much a place changes in a year in healthy eyes: what a trend may expect, not a limit.
 *
 * @param source where it comes from
 * @param place what is measured and where
 * @param umPerYear slope in µm per year, negative for thinning
 * @param scope which eyes it is about
 */
public record ReferenceAgeing(
    ReferenceSource source, ReferencePlace place, double umPerYear, ReferenceScope scope) {
  public ReferenceAgeing {
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(scope, "scope");
    if (!Double.isFinite(umPerYear)) {
      throw new IllegalArgumentException("a slope is finite, was " + umPerYear);
    }
  }
}
