package org.isopach.job;

import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.isopach.analysis.scan.OctScan;

/**
 * One visit of one eye: its scans in one study.
 *
 * @param studyUid the study
 * @param scans the scans in it, at least one, in their order
 */
record Visit(String studyUid, List<OctScan> scans) {
  /** By the time of the first scan, unknown times last, then by study. */
  static final Comparator<Visit> BY_TIME =
      Comparator.comparing(Visit::time).thenComparing(Visit::studyUid);

  Visit {
    Objects.requireNonNull(studyUid, "studyUid");
    scans = List.copyOf(scans);
  }

  /** Returns whether any scan says when it was made. */
  boolean hasTime() {
    return !time().equals(LocalDateTime.MAX);
  }

  /** Returns the time of the first scan, the last of all times when none has one. */
  LocalDateTime time() {
    return scans.stream()
        .map(scan -> scan.identity().acquired().orElse(LocalDateTime.MAX))
        .min(Comparator.naturalOrder())
        .orElseThrow();
  }

  boolean hasUnknownTime() {
    return scans.stream().anyMatch(scan -> scan.identity().acquired().isEmpty());
  }

  boolean contains(OctScan scan) {
    return scan.identity().studyUid().equals(studyUid);
  }
}
