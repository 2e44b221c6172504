package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.change.RepeatPair;
import org.isopach.analysis.finding.Finding;

/**
 * Two scans laid on one another, not yet judged.
 *
 * @param alignment by what
 * @param pairs one entry for each layer that both have
 * @param findings why layers, or all of it, were refused
 * @param laid the two scans as they lie; empty when they were refused
 */
public record LaidVisits(
    String alignment, List<RepeatPair> pairs, List<Finding> findings, Optional<LaidPair> laid) {
  public LaidVisits {
    Objects.requireNonNull(alignment, "alignment");
    pairs = List.copyOf(pairs);
    findings = List.copyOf(findings);
    Objects.requireNonNull(laid, "laid");
  }

  /** Returns the same with more to say. */
  LaidVisits and(List<Finding> more) {
    List<Finding> all = new ArrayList<>(findings);
    all.addAll(more);
    return new LaidVisits(alignment, pairs, all, laid);
  }

  static LaidVisits refused(Finding why) {
    return new LaidVisits("", List.of(), List.of(why), Optional.empty());
  }
}
